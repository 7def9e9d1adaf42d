/** Gives what the page holds to the browser to keep as a file. */
export function saveFile(content: Blob, name: string): void {
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // Some browsers fetch it only after the tap: the address lives a while.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
