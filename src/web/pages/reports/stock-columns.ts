import { layout } from './report-columns.ts';

/** Reports of solder, metal and pickle. */
export const STOCK_REPORTS = {
  'solder-use': layout('solder-use', {
    rows: ({ rows }) => rows,
    columns: [
      { word: 'product', kind: 'text', of: ({ name }) => name },
      { word: 'month', kind: 'month', of: ({ month }) => month },
      { word: 'used', kind: 'mass', of: ({ grams }) => grams },
      { word: 'inHeats', kind: 'mass', of: ({ inHeatsG }) => inHeatsG },
      { word: 'jointsMade', kind: 'count', of: ({ jointsMade }) => jointsMade },
      { word: 'perJoint', kind: 'mass', of: ({ gPerJoint }) => gPerJoint },
      { word: 'redone', kind: 'count', of: ({ redone }) => redone },
      { word: 'redoneShare', kind: 'share', of: ({ redoneFraction }) => redoneFraction },
    ],
  }),
  'to-order': layout('to-order', {
    rows: ({ suppliers }) =>
      suppliers.flatMap(({ supplier, minimumMet, lines }) => lines.map((line) => ({ ...line, supplier, minimumMet }))),
    columns: [
      { word: 'product', kind: 'text', of: ({ name }) => name },
      { word: 'supplier', kind: 'text', of: ({ supplier }) => supplier },
      { word: 'onHand', kind: 'mass', of: ({ onHandG }) => onHandG },
      { word: 'held', kind: 'mass', of: ({ heldG }) => heldG },
      { word: 'onOrder', kind: 'mass', of: ({ onOrderG }) => onOrderG },
      { word: 'orderPoint', kind: 'mass', of: ({ orderPointG }) => orderPointG },
      { word: 'toOrder', kind: 'mass', of: ({ orderG }) => orderG },
      { word: 'cost', kind: 'money', of: ({ cost }) => cost },
      { word: 'minimum', kind: { group: 'report.minimum' }, of: ({ minimumMet }) => (minimumMet ? 'met' : 'missed') },
    ],
  }),
  'stock-worth': layout('stock-worth', {
    rows: ({ rows }) => rows,
    sums: ({ total }) => [{ word: 'value', kind: 'money', value: total }],
    columns: [
      { word: 'product', kind: 'text', of: ({ product }) => product },
      { word: 'onHand', kind: 'mass', of: ({ onHandG }) => onHandG },
      { word: 'held', kind: 'mass', of: ({ heldG }) => heldG },
      { word: 'value', kind: 'money', of: ({ value }) => value },
      { word: 'lots', kind: 'text', of: ({ lots }) => lots.map(({ number }) => number) },
    ],
  }),
  'metal-balance': layout('metal-balance', {
    rows: ({ rows }) => rows,
    columns: [
      { word: 'metal', kind: 'text', of: ({ metal }) => metal },
      { word: 'issued', kind: 'mass', of: ({ issuedG }) => issuedG },
      { word: 'inWork', kind: 'mass', of: ({ inWorkG }) => inWorkG },
      { word: 'inPieces', kind: 'mass', of: ({ inPiecesG }) => inPiecesG },
      { word: 'putBack', kind: 'mass', of: ({ putBackG }) => putBackG },
      { word: 'jar', kind: 'mass', of: ({ jarG }) => jarG },
      { word: 'unexplained', kind: 'mass', of: ({ unexplainedG }) => unexplainedG },
      { word: 'unexplainedShare', kind: 'share', of: ({ unexplainedFraction }) => unexplainedFraction },
    ],
  }),
  'pickle-baths': layout('pickle-baths', {
    rows: ({ rows }) => rows,
    columns: [
      { word: 'bath', kind: 'text', of: ({ number }) => number },
      { word: 'acid', kind: { group: 'report.acid' }, of: ({ acid }) => acid },
      { word: 'openedOn', kind: 'date', of: ({ openedOn }) => openedOn },
      { word: 'state', kind: { group: 'report.bath' }, of: ({ state }) => state },
      { word: 'dips', kind: 'count', of: ({ dips }) => dips },
      { word: 'copper', kind: 'copper', of: ({ copperGPerL }) => copperGPerL },
      { word: 'copperShare', kind: 'share', of: ({ copper }) => copper.fraction },
      { word: 'acidLeft', kind: 'share', of: ({ acidLeftFraction }) => acidLeftFraction },
      { word: 'blushes', kind: 'count', of: ({ blushes }) => blushes },
      { word: 'pH', kind: 'pH', of: ({ ph }) => ph },
      { word: 'goneTo', kind: 'text', of: ({ goneTo }) => goneTo },
    ],
  }),
};
