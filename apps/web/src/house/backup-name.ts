import type { Day } from "@pollard/base";

/** A file name that sorts by day and says whose herd it is; no sign that any phone or computer stumbles over. */
export function backupName(herd: string, today: Day, ending = "jsonl"): string {
  const plain = herd
    .normalize("NFKD")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "");
  return `pollard-${plain === "" ? "herd" : plain.toLowerCase()}-${today}.${ending}`;
}
