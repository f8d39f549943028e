import type { TestWorthLine } from "@pollard/advice";
import { longQuestion, useOwnThread } from "../../house/use-own-thread.ts";
import { useScreens, useToday, words } from "../../house/use-house.tsx";
import { pairings as said } from "../../house/wording-later.ts";
import { Frame } from "../../parts/frame/frame.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { useWide } from "../../parts/frame/use-wide.ts";
import { settledSaid } from "./model.ts";
import { TestedGoats, TestsTable } from "./table.tsx";

/** Three inferences and plans for every animal: no other question waits for that. */
const WORTH = longQuestion((answers, today) => answers.testWorth(today));

/** Animals shown at once; the rest behind one tap. */
const SHOWN = 8;

/** What a DNA test of each animal would save, against its price. "Not worth it" is a normal answer. */
export function TestsScreen() {
  const s = useScreens();
  const today = useToday();
  const { model, state } = useOwnThread(WORTH, today);
  const wide = useWide();
  const rest = model?.lines.slice(SHOWN) ?? [];
  return (
    <Frame heading={s.tests.title} title={s.tests.title} back="/pairings" place="plan">
      <h1 className="sentence">{s.tests.lead}</h1>
      {model === undefined ? (
        <Told>{s.tests.working}</Told>
      ) : (
        <>
          {state !== "ready" && <Told>{s.frame.stillWorking}</Told>}
          <p className="say">{said.tests(model)}</p>
          {wide === "desk" ? (
            <TestsTable lines={model.lines} caption={s.tests.caption(model.lines.length)} />
          ) : (
            <>
              <TestLines lines={model.lines.slice(0, SHOWN)} />
              {rest.length > 0 && (
                <details className="why">
                  <summary>{s.tests.more(rest.length)}</summary>
                  <TestLines lines={rest} />
                </details>
              )}
            </>
          )}
          {model.together.length > 0 && (
            <section className="part">
              <h2>{s.tests.together}</h2>
              {wide === "desk" ? (
                <TestsTable lines={model.together} caption={s.tests.captionTogether(model.together.length)} />
              ) : (
                <TestLines lines={model.together} />
              )}
            </section>
          )}
          <p className="quiet">{said.unit}</p>
        </>
      )}
    </Frame>
  );
}

/** Animals as ruled lines: whom to test, whether it is worth it, what it would settle, and worth beside price. */
function TestLines({ lines }: { readonly lines: readonly TestWorthLine[] }) {
  const s = useScreens();
  return (
    <ul className="rows">
      {lines.map((line) => (
        <li key={line.animals.map(({ id }) => id).join(" ")} className="test-line">
          <TestedGoats line={line} />
          <b>{s.tests.verdict[line.advice]}</b>
          {line.advice !== "known-already" && (
            <>
              <span>{settledSaid(s, line)}</span>
              <span className="num">{s.tests.saves(words.number(line.worth, 2), words.number(line.price, 2))}</span>
            </>
          )}
        </li>
      ))}
    </ul>
  );
}
