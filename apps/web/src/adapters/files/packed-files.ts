/** Files of text, packed into one (zip). */
export async function packedFiles(files: readonly { readonly name: string; readonly text: string }[]): Promise<Blob> {
  const { strToU8, zipSync } = await import("fflate");
  const packed = zipSync(Object.fromEntries(files.map(({ name, text }) => [name, strToU8(text)])));
  return new Blob([packed], { type: "application/zip" });
}
