// A drawing that the server made, as dots: for who cannot use an SVG.

/** @param address of an SVG file */
export async function pngOf(address: string): Promise<Blob> {
  const picture = new Image();
  picture.src = address;
  await picture.decode();
  const canvas = document.createElement("canvas");
  canvas.width = picture.naturalWidth * 2;
  canvas.height = picture.naturalHeight * 2;
  canvas.getContext("2d")?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) =>
    canvas.toBlob(
      (blob) => (blob === null ? reject(new Error("no picture could be made")) : resolve(blob)),
      "image/png",
    ),
  );
}

/** Hands a file to the reader. */
export function save(file: Blob, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
