import type { TestWorthLine } from "@pollard/advice";
import { useAsked, useScreens, useToday } from "../../house/use-house.tsx";
import { pairings as said } from "../../house/wording-later.ts";
import { Frame } from "../../parts/frame.tsx";
import { Told } from "../../parts/told.tsx";

/** Animals shown at once; the rest behind one tap. */
const SHOWN = 8;

/** What a DNA test of each animal would save, against its price. "Not worth it" is a normal answer. */
export function TestsScreen() {
  const s = useScreens();
  const today = useToday();
  const model = useAsked((answers) => answers.testWorth(today), [today]).value;
  const rest = model?.lines.slice(SHOWN) ?? [];
  return (
    <Frame heading={s.tests.title} title={s.tests.title} back="/pairings" place="plan">
      <h1 className="sentence">{s.tests.lead}</h1>
      {model === undefined ? (
        <Told>{s.tests.working}</Told>
      ) : (
        <>
          <p className="say">{said.tests(model)}</p>
          <TestLines lines={model.lines.slice(0, SHOWN)} />
          {rest.length > 0 && (
            <details className="why">
              <summary>{s.tests.more(rest.length)}</summary>
              <TestLines lines={rest} />
            </details>
          )}
          {model.together.length > 0 && (
            <section className="part">
              <h2>{s.tests.together}</h2>
              <TestLines lines={model.together} />
            </section>
          )}
          <p className="quiet">{said.unit}</p>
        </>
      )}
    </Frame>
  );
}

function TestLines({ lines }: { readonly lines: readonly TestWorthLine[] }) {
  return (
    <ul className="plain-lines">
      {lines.map((line) => (
        <li key={line.animals.map(({ id }) => id).join(" ")}>{said.testWorth(line)}</li>
      ))}
    </ul>
  );
}
