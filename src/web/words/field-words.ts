/** Units that names of fields end with. */
const UNIT =
  /(?<=[a-z\d])(WPerMmK|WPerMm2K|WPerK|JPerGK|JPerK|GPerMm3|GPerCm3|GPerL|MlPerCm2|TenthMg|Fraction|Minor|Mm2|Mm3|Cm2|Cm3|Deg|Mm|Um|Ms|Kg|[CGJKLSW])$/;
/** Those that no name which people give ends with. */
const SURE_UNIT = /(Mm|Mm2|Mm3|Cm2|Cm3|Fraction|Minor|TenthMg|PerG?K|PerCm3|PerMm3)$/;

/** A field of a thing, such as flux.pricePerG. */
const PATHS = /(?<![\w"“„/.@-])[a-z][\w-]*(?:\.[a-z]\w*)+(?![\w.@-])/gi;
const NAMES = /(?<![\w"“„/-])[a-z]+(?:[A-Z][a-z\d]*)+(?![\w-])/g;

/** Words for a field by its name in the API, such as thicknessMm; undefined where there are none. */
export type NameField = (name: string) => string | undefined;

/** @param words by names, with their unit or without, or by `journal.field.` and the whole name, which may give the unit after a comma */
export function fieldNamer(words: Readonly<Record<string, string>>): NameField {
  return (name) => {
    const bare = name.replace(UNIT, '');
    for (const key of [name, bare]) if (Object.hasOwn(words, key)) return words[key];
    const kept = words[`journal.field.${name}`];
    return bare === name ? kept : kept?.replace(/, [^,]+$/, '');
  };
}

/** A sentence in which the names of fields are words. Names that people gave stay: those have no unit. */
export function withFieldsInWords(sentence: string, nameField: NameField): string {
  const said = (name: string) => nameField(name) ?? (SURE_UNIT.test(name) ? asWritten(name) : undefined);
  return sentence
    .replaceAll(PATHS, (path) => {
      const names = path.split('.');
      return said(names.at(-1)!) === undefined ? path : names.map((name) => said(name) ?? name).join(', ');
    })
    .replaceAll(NAMES, (name) => said(name) ?? name);
}

/**
 * Where a field stands, in words: "/lines/1/quantityG" is "Line 2, quantity".
 *
 * @param pointer JSON Pointer (RFC 6901); `?name` for a query parameter, `:name` for a part of the path
 */
export function placeInWords(pointer: string, nameField: NameField): string {
  const steps = pointer
    .replace(/^[?:/]/, '')
    .split('/')
    .filter((step) => step !== '');
  const words: string[] = [];
  for (const [at, step] of steps.entries()) {
    const list = steps[at - 1];
    if (/^\d+$/.test(step) && list !== undefined) {
      const one = list.replace(/s$/, '');
      words[words.length - 1] = `${nameField(one) ?? asWritten(one)} ${Number(step) + 1}`;
    } else words.push(nameField(step) ?? asWritten(step.replaceAll('~1', '/').replaceAll('~0', '~')));
  }
  const place = words.join(', ');
  return place.charAt(0).toUpperCase() + place.slice(1);
}

/** What the name itself says, in English. */
function asWritten(name: string): string {
  return name
    .replace(UNIT, '')
    .replaceAll('_', ' ')
    .replaceAll(/(?<=[a-z\d])[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
