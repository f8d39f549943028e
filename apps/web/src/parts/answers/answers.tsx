import { type ReactNode, useId } from "react";
import { TickIcon } from "../../drawings/icons.tsx";
import { LackSaid, useLack } from "../keeping/lacks.tsx";

/** One answer that can be given. */
export interface Choice<T extends string> {
  readonly value: T;
  readonly label: string;
  readonly hint?: string | undefined;
  readonly drawing?: ReactNode;
  /** The language of the label, where it is not the page's. */
  readonly language?: string;
  /** `faint`: an answer that is no observation, such as "not sure". */
  readonly weight?: "faint";
}

interface Asking<T extends string> {
  readonly name: string;
  readonly legend: ReactNode;
  /** Keeps the question for readers who listen, where the page already shows it. */
  readonly legendShown?: "unseen";
  readonly choices: readonly Choice<T>[];
  readonly shape?: "column" | "tiles" | "tiles-3" | "small" | "three";
}

/** One question with its answers side by side; native radio buttons, so that keys and screen readers know what to do. */
export function Answers<T extends string>(
  props: Asking<T> & { readonly value: T | undefined; readonly onAnswer: (value: T) => void },
) {
  return (
    <AsksFor field={props.name}>
      <legend className={props.legendShown}>{props.legend}</legend>
      <div className={gridOf(props.shape)}>
        {props.choices.map((choice) => (
          <label key={choice.value} className={classOf(props.shape, choice)}>
            <input
              type="radio"
              name={props.name}
              value={choice.value}
              checked={props.value === choice.value}
              onChange={() => props.onAnswer(choice.value)}
            />
            <Face choice={choice} />
          </label>
        ))}
      </div>
    </AsksFor>
  );
}

/** The same where several answers may hold at once. */
export function ManyAnswers<T extends string>(
  props: Asking<T> & { readonly values: readonly T[]; readonly onAnswers: (values: readonly T[]) => void },
) {
  const toggled = (value: T): readonly T[] =>
    props.values.includes(value) ? props.values.filter((other) => other !== value) : [...props.values, value];
  return (
    <AsksFor field={props.name}>
      <legend className={props.legendShown}>{props.legend}</legend>
      <div className={gridOf(props.shape)}>
        {props.choices.map((choice) => (
          <label key={choice.value} className={classOf(props.shape, choice)}>
            <input
              type="checkbox"
              name={props.name}
              checked={props.values.includes(choice.value)}
              onChange={() => props.onAnswers(toggled(choice.value))}
            />
            <Face choice={choice} />
          </label>
        ))}
      </div>
    </AsksFor>
  );
}

/** A question with what is missing at it; `field` is the name by which that is told. */
export function AsksFor({ field, children }: { readonly field: string | undefined; readonly children: ReactNode }) {
  const id = useId();
  const lack = useLack(field);
  return (
    <fieldset className="asks" data-asks={field} aria-describedby={lack === undefined ? undefined : id}>
      {children}
      <LackSaid id={id} said={lack} />
    </fieldset>
  );
}

function Face<T extends string>({ choice }: { readonly choice: Choice<T> }) {
  return (
    <>
      {choice.drawing}
      <span>
        {choice.language === undefined ? choice.label : <span lang={choice.language}>{choice.label}</span>}
        {choice.hint !== undefined && <span className="quiet"> {choice.hint}</span>}
      </span>
      <span className="tick" aria-hidden="true">
        <TickIcon />
      </span>
    </>
  );
}

const gridOf = (shape: Asking<string>["shape"]): string =>
  shape === "column" || shape === "three" || shape === "tiles-3" ? `answers ${shape}` : "answers";

const classOf = (shape: Asking<string>["shape"], choice: Choice<string>): string =>
  [
    "answer",
    shape === "tiles" || shape === "tiles-3" ? "tall" : "",
    shape === "small" || shape === "three" ? "small" : "",
    choice.weight ?? "",
  ]
    .filter(Boolean)
    .join(" ");
