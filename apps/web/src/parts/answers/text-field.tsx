import { useId } from "react";
import { useScreens } from "../../house/use-house.tsx";
import { LackSaid, useLack } from "../keeping/lacks.tsx";
import { Told } from "../frame/told.tsx";

/** A field for typing, with its label above it and why it is asked. Optional unless said otherwise. */
export function TextField(props: {
  readonly label: string;
  /** By which what is missing is told of it. */
  readonly name?: string;
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
  const lack = useLack(props.name);
  const wrong = props.wrong ?? lack;
  const described = [props.hint === undefined ? "" : `${id}-hint`, wrong === undefined ? "" : `${id}-wrong`].filter(
    Boolean,
  );
  const common = {
    id,
    value: props.value,
    autoComplete: "off",
    "aria-invalid": wrong !== undefined,
    "aria-describedby": described.length > 0 ? described.join(" ") : undefined,
  } as const;
  return (
    <div className="field" data-asks={props.name}>
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
      {props.wrong === undefined ? (
        <LackSaid id={`${id}-wrong`} said={lack} />
      ) : (
        <Told id={`${id}-wrong`}>
          <b>{props.wrong}</b>
        </Told>
      )}
    </div>
  );
}
