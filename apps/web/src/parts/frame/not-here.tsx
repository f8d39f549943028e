import type { ReactNode } from "react";
import { animalId } from "@pollard/genetics";
import { canBe } from "@pollard/records";
import { useAsked, useScreens } from "../../house/use-house.tsx";
import { Frame, type Place } from "./frame.tsx";

/** A page whose address names something that is not there: said as its heading, and the way back. */
export function NotHere(props: { readonly said: string; readonly back: string; readonly place?: Place }) {
  const s = useScreens();
  const { place } = props;
  return (
    <Frame heading={props.said} title={s.frame.app} back={props.back} {...(place === undefined ? {} : { place })}>
      <h1>{props.said}</h1>
      <a className="press main" href="#/">
        {s.frame.toToday}
      </a>
    </Frame>
  );
}

/**
 * A page about one goat: where no goat of this herd is meant by the address, that is said, and nothing can be entered.
 *
 * Nothing waits for the answer, since nearly every address is right; a goat that comes in later opens its page.
 */
export function OfGoat(props: {
  readonly id: string;
  /** `dam`: a page of a birth, which no buck and no wether has. */
  readonly as?: "goat" | "dam";
  readonly children: ReactNode;
}) {
  const s = useScreens();
  const { id, as = "goat" } = props;
  const goat = animalId(id);
  const known = useAsked(
    async (answers) => (await answers.isKnown(goat)) && (as === "goat" || canBe("dam", (await answers.ref(goat)).sex)),
    [id, as],
  ).value;
  if (known !== false) return props.children;
  return <NotHere said={as === "dam" ? s.frame.noSuchDoe : s.frame.noSuchAnimal} back="/animals" place="animals" />;
}
