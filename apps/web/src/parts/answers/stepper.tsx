import { useScreens } from "../../house/use-house.tsx";

/** A value with less and more, each a whole thumb wide; `shown` is the line above it, where the page does not say it already. */
export function Stepper(props: {
  readonly label: string;
  readonly shown?: string;
  readonly value: number | string;
  readonly onStep: (way: "less" | "more") => void;
}) {
  const row = <Row {...props} />;
  if (props.shown === undefined) return row;
  return (
    <div className="stack tight">
      <p>{props.shown}</p>
      {row}
    </div>
  );
}

function Row(props: {
  readonly label: string;
  readonly value: number | string;
  readonly onStep: (way: "less" | "more") => void;
}) {
  const s = useScreens();
  return (
    <div className="stepper">
      <button
        type="button"
        className="press"
        aria-label={`${props.label}: ${s.settings.less}`}
        onClick={() => props.onStep("less")}
      >
        {"\u2212"}
      </button>
      <output
        className={typeof props.value === "string" && !/\d/.test(props.value) ? "said" : undefined}
        aria-label={props.label}
      >
        {props.value}
      </output>
      <button
        type="button"
        className="press"
        aria-label={`${props.label}: ${s.settings.more}`}
        onClick={() => props.onStep("more")}
      >
        +
      </button>
    </div>
  );
}
