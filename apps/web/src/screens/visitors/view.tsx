import { Link } from "wouter";
import { PrintIcon } from "../../drawings/icons.tsx";
import { care, useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { StatusChip } from "../../parts/status-chip.tsx";
import { Told } from "../../parts/frame/told.tsx";

/** What visitors and keepers must know while kids are born, and the sheet for the gate. */
export function VisitorsScreen() {
  const s = useScreens();
  const today = useToday();
  const model = useAsked((answers) => answers.visitors(today), [today]).value;
  return (
    <Frame
      heading={s.safety.title}
      title={s.safety.title}
      back="/"
      place="today"
      dock={
        <Link href="/sheet/gate" className="press">
          <PrintIcon />
          {s.safety.gateSheet}
        </Link>
      }
    >
      <h1 className="in-board">{s.safety.title}</h1>
      {model === undefined ? (
        <Told>{s.frame.working}</Told>
      ) : (
        <>
          <p>
            <StatusChip status={model.state === "open" ? "now" : "done"} word={s.safety.state[model.state]} />
          </p>
          {model.from !== undefined && model.to !== undefined && (
            <p>
              {s.safety[model.state === "open" ? "now" : "next"](
                words.day(model.from, today),
                words.day(model.to, today),
              )}
            </p>
          )}
          {model.afterLoss.length > 0 && (
            <section className="card now">
              <h2>{s.safety.afterLoss}</h2>
              <ul className="cautions">
                {model.afterLoss.map((code) => (
                  <li key={code}>{care.afterLoss(code)}</li>
                ))}
              </ul>
            </section>
          )}
          <section className="part">
            <h2>{s.safety.forVisitors}</h2>
            <ul className="cautions">
              {model.cautions.map((code) => (
                <li key={code}>{care.visitors(code)}</li>
              ))}
            </ul>
            <p className="quiet">{s.safety.doctor}</p>
          </section>
        </>
      )}
    </Frame>
  );
}
