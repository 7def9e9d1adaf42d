/** Text of an SVG or HTML document: nothing in it is markup; characters that XML cannot hold are replaced. */
export function escapeMarkup(text: string): string {
  return text
    .replaceAll(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '\u{FFFD}')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

/** A length of the drawing in user units, to the hundredth, never −0. */
export function units(value: number): string {
  return String(Number(value.toFixed(2)) + 0);
}

/** The attributes and children of an element; numbers are lengths, absent ones are left out. */
export function element(
  name: string,
  attributes: Readonly<Record<string, string | number | undefined>>,
  ...children: readonly string[]
): string {
  const written = Object.entries(attributes)
    .flatMap(([key, value]) =>
      value === undefined ? [] : [` ${key}="${typeof value === 'number' ? units(value) : escapeMarkup(value)}"`],
    )
    .join('');
  return children.length === 0 ? `<${name}${written}/>` : `<${name}${written}>${children.join('')}</${name}>`;
}

/** Words in lines of at most so many letters; a word that is longer is broken. */
export function linesOf(text: string, most: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const letters = Array.from(word);
    const last = lines.at(-1);
    if (last !== undefined && Array.from(last).length + 1 + letters.length <= most) lines[lines.length - 1] = `${last} ${word}`;
    else
      for (let from = 0; from === 0 || from < letters.length; from += most) lines.push(letters.slice(from, from + most).join(''));
  }
  return lines;
}
