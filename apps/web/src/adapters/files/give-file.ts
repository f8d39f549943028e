/** A file to hand on: its name with the ending, its kind, its text. */
export interface FileToGive {
  readonly name: string;
  readonly type: string;
  readonly text: string;
}

/** How it went: handed to another app, written into the person's files, or called off by the person. */
export type Given = "shared" | "saved" | "called-off";

/** Hands a file to another app where the phone can do that; else writes it into the person's files. */
export async function giveFile({ name, type, text }: FileToGive): Promise<Given> {
  const file = new File([text], name, { type });
  // Only phones: at the desk a file is looked for among the downloads.
  const isPhone = matchMedia("(pointer: coarse)").matches;
  if (isPhone && "canShare" in navigator && navigator.canShare({ files: [file] })) {
    try {
      await navigator.share({ files: [file] });
      return "shared";
    } catch (error) {
      if (error instanceof DOMException && error.name === "AbortError") return "called-off";
      // Some phones say they can and then refuse: the file is written instead.
    }
  }
  saveFile(file);
  return "saved";
}

function saveFile(file: File): void {
  const url = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = url;
  link.download = file.name;
  link.click();
  URL.revokeObjectURL(url);
}
