import type { ReactNode } from "react";
import { useWide } from "../frame/use-wide.ts";

/**
 * What is behind an answer: on a phone one line that opens onto it, at the desk all of it at once.
 *
 * The line is the browser's own, so keys and readers of screens know it as what opens and shuts. Bare words are a quiet line;
 * anything else is an answer. `desk`: what stands for the line where there is room; nothing, unless said.
 */
export function Fold(props: { readonly line: ReactNode; readonly desk?: ReactNode; readonly children: ReactNode }) {
  if (useWide() === "desk")
    return (
      <>
        {props.desk}
        {props.children}
      </>
    );
  return (
    <details className={typeof props.line === "string" ? "why" : "fold"}>
      <summary>{typeof props.line === "string" ? props.line : <span>{props.line}</span>}</summary>
      <div className="stack tight">{props.children}</div>
    </details>
  );
}
