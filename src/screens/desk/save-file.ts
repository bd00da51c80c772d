/** Gives the browser a file to save; nothing leaves the device. */
export function saveFile(name: string, text: string, type: string): void {
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  // The download reads the address after this turn.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** A label as a file name. */
export const fileNameOf = (label: string | undefined): string => (label ?? 'examination').replace(/[^\w-]+/g, '-').toLowerCase();
