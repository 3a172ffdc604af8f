/** Hands a file to the reader; nothing leaves the browser. */
export function saveFile(content: Blob | string, name: string, type = 'text/plain'): void {
  const blob = typeof content === 'string' ? new Blob([content], { type: `${type};charset=utf-8` }) : content;
  const address = URL.createObjectURL(blob);
  const link = Object.assign(document.createElement('a'), { href: address, download: name });
  link.click();
  // The browser has its own hold on the blob once the download began.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
