/** A plain page of documentation, light or dim as the reader's device has it; what comes from data is escaped by its maker. */
export function htmlPage(title: string, body: string, language = 'en'): string {
  return `<!doctype html>
<html lang="${language}">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>${title} – Hearthbook</title>
<style>
  :root { color-scheme: light dark }
  body { font: 1rem/1.5 system-ui, sans-serif; margin: 1rem auto; max-width: 56rem; padding: 0 1rem }
  table { border-collapse: collapse; width: 100% }
  th { text-align: left }
  th, td { border-bottom: 1px solid #8886; padding: .35rem .75rem .35rem 0; vertical-align: top }
  code { overflow-wrap: break-word }
  @media (max-width: 40rem) { table { font-size: .8rem } th, td { padding-right: .4rem } }
</style>
<h1>${title}</h1>
${body}
</html>
`;
}

export function htmlTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return `<table>
<thead><tr>${head.map((cell) => `<th scope="col">${cell}</th>`).join('')}</tr></thead>
<tbody>
${rows.map((row) => `<tr>${row.map((cell) => `<td>${cell}</td>`).join('')}</tr>`).join('\n')}
</tbody>
</table>`;
}
