/** By the end of a name, the longest first. */
const UNITS: readonly (readonly [RegExp, string])[] = [
  [/_tenth_mg$/, '0.1 mg'],
  [/_per_cm3$/, 'g/cm³'],
  [/_per_m_k$/, 'W/(m·K)'],
  [/_per_kg_k$/, 'J/(kg·K)'],
  [/_g_per_l$/, 'g/L'],
  [/_per_hour$/, 'currency per hour'],
  [/_per_g$/, 'currency per g'],
  [/_cm2$/, 'cm²'],
  [/_mm$/, 'mm'],
  [/_px$/, 'pixels'],
  [/_g$/, 'g'],
  [/_l$/, 'L'],
  [/_c$/, '°C'],
  [/_k$/, 'K'],
  [/_w$/, 'W'],
  [/_s$/, 's'],
  [/_fraction$/, 'share of one'],
  [/_minutes$|^minutes|_minutes_/, 'min'],
  [/_days$/, 'days'],
  [/_weeks$/, 'weeks'],
  [/_years$/, 'years'],
];

/** The unit of a column by its name; null: a count, a word, a date. Dates are ISO 8601, moments RFC 3339 in UTC. */
export function columnUnit(name: string, currency: string): string | null {
  if (name.endsWith('_minor')) return `minor unit of ${currency}`;
  const unit = UNITS.find(([end]) => end.test(name))?.[1];
  return unit?.replace('currency', currency) ?? null;
}
