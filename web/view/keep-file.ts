/** Keeps a file as a browser keeps what is downloaded. */
export function keepFile(file: Blob, name: string): void {
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // Not at once: some browsers begin to read it only after this turn.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
