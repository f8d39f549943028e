/**
 * What went wrong, for a log that anyone may read: the sort of error, its code, its first words and where it happened.
 *
 * Messages quote what they stumbled over, and that may be a goat's name or a person's: what stands in quotes or after the
 * first colon is left out.
 */
export function plainError(error: unknown): string {
  if (!(error instanceof Error)) return typeof error;
  const code = "code" in error && /^\w{1,40}$/.test(String(error.code)) ? ` ${String(error.code)}` : "";
  const [first = ""] = error.message.split(/[:\n]/, 1);
  const words = first.replace(/(["'`]).*?(\1|$)/g, "…");
  const frames = (error.stack ?? "").split("\n").filter((line) => /^\s+at /.test(line));
  return [`${error.name}${code}: ${words}`, ...frames.map((frame) => frame.trim())].join(" | ");
}
