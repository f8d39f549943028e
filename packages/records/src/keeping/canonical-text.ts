/** One text for equal JSON, whatever the order of its keys: to tell whether two entries say the same. */
export const canonicalText = (json: unknown): string =>
  JSON.stringify(json, (_key, value: unknown) =>
    typeof value === "object" && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  ) ?? "";
