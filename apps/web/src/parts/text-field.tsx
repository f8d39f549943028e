import { useId } from "react";
import { useScreens } from "../house/use-house.tsx";
import { Told } from "./told.tsx";

/** A field for typing, with its label above it and why it is asked. Optional unless said otherwise. */
export function TextField(props: {
  readonly label: string;
  readonly hint?: string;
  readonly value: string;
  readonly onText: (text: string) => void;
  readonly keys?: "decimal" | "numeric";
  readonly need?: "needed";
  readonly lines?: "many";
  readonly wrong?: string | undefined;
}) {
  const s = useScreens();
  const id = useId();
  const described = [
    props.hint === undefined ? "" : `${id}-hint`,
    props.wrong === undefined ? "" : `${id}-wrong`,
  ].filter(Boolean);
  const common = {
    id,
    value: props.value,
    autoComplete: "off",
    "aria-invalid": props.wrong !== undefined,
    "aria-describedby": described.length > 0 ? described.join(" ") : undefined,
  } as const;
  return (
    <div className="field">
      <label htmlFor={id}>
        {props.label}
        {props.need === undefined && <span className="quiet unbold"> {s.frame.optional}</span>}
      </label>
      {props.hint !== undefined && (
        <p id={`${id}-hint`} className="quiet">
          {props.hint}
        </p>
      )}
      {props.lines === undefined ? (
        <input {...common} inputMode={props.keys ?? "text"} onChange={(event) => props.onText(event.target.value)} />
      ) : (
        <textarea {...common} onChange={(event) => props.onText(event.target.value)} />
      )}
      {props.wrong !== undefined && (
        <Told id={`${id}-wrong`}>
          <b>{props.wrong}</b>
        </Told>
      )}
    </div>
  );
}
