/** Hands a file to the browser's downloads. */
export function saveFile(content: Blob, name: string): void {
  const address = URL.createObjectURL(content);
  const anchor = document.createElement('a');
  anchor.href = address;
  anchor.download = name;
  anchor.click();
  // the download has taken hold of it by then
  window.setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

export const svgAddress = (svg: string): string =>
  `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;

/**
 * An SVG file drawn by the browser, `scale` pixels to each of its own.
 * @throws Error when the browser cannot draw it or has no room for it
 */
export async function pngOf(svg: string, scale: number): Promise<Blob> {
  const image = new Image();
  image.src = svgAddress(svg);
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = image.naturalWidth * scale;
  canvas.height = image.naturalHeight * scale;
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('no 2D canvas');
  pen.drawImage(image, 0, 0, canvas.width, canvas.height);
  return new Promise((done, failed) =>
    canvas.toBlob((blob) => (blob === null ? failed(new Error('no PNG')) : done(blob)), 'image/png'),
  );
}
