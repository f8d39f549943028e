import { useScreens } from "../../house/use-house.tsx";
import { TextField } from "./text-field.tsx";
import { readWeight, type TypedWeight } from "./typed-weight.ts";

/** A field for a weight: its unit stands in the label, and what is no weight is told at once. */
export function WeightField(props: {
  readonly typed: TypedWeight;
  readonly name?: string;
  readonly onText: (text: string) => void;
  readonly hint?: string;
  readonly need?: "needed";
}) {
  const s = useScreens();
  const { state } = readWeight(props.typed);
  return (
    <TextField
      label={s.fact.weight[props.typed.unit]}
      keys="decimal"
      value={props.typed.text}
      onText={props.onText}
      wrong={state === "unclear" || state === "heavy" ? s.fact.weightWrong[state] : undefined}
      {...(props.name === undefined ? {} : { name: props.name })}
      {...(props.hint === undefined ? {} : { hint: props.hint })}
      {...(props.need === undefined ? {} : { need: props.need })}
    />
  );
}
