// A drawing that the server made, as dots: for who cannot use an SVG.

/** @param svg an SVG file */
export async function pngOf(svg: Blob): Promise<Blob> {
  const picture = new Image();
  picture.src = URL.createObjectURL(svg);
  await picture.decode();
  URL.revokeObjectURL(picture.src);
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
