import { type Status, StatusMark } from "../drawings/marks.tsx";

/** A status as shape, word and a step of lightness. */
export function StatusChip({ status, word }: { readonly status: Status; readonly word: string }) {
  return (
    <span className={`chip ${status}`}>
      <StatusMark status={status} />
      <span>{word}</span>
    </span>
  );
}
