import type { AdviceProblem } from "@pollard/advice";
import type { HistoryLine, SameAnswer } from "@pollard/records";
import { Link } from "wouter";
import { loci, useAsked, useScreens, useToday, words, wordsFor } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { type Deeds, useDeeds } from "../../parts/keeping/use-deed.ts";
import type { ProblemsModel } from "../../worker/herd-answers.ts";
import type { Replacement } from "../../worker/standing-fact.ts";
import { animalsOf, entriesOf, factSaid, nameless, reasonsSaid } from "./model.ts";
import { Told } from "../../parts/frame/told.tsx";

/** What does not fit: one clear sentence each, with a way to put it right. */
export function ProblemsScreen() {
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.problems(today), [today]);
  const deeds = useDeeds();
  const model = asked.value;
  return (
    <Frame
      heading={s.problems.title}
      title={s.problems.title}
      back="/safe"
      place="safe"
      dock={deeds.saving.state === "nothing" ? undefined : <DeedLine deeds={deeds} />}
    >
      <h1 className="in-board">{s.problems.title}</h1>
      <Told className={model?.problems.length === 0 ? "card say" : "told"}>
        {model === undefined
          ? s.frame.working
          : model.problems.length === 0
            ? s.problems.none
            : `${s.problems.count(model.problems.length)}. ${s.problems.intro}`}
      </Told>
      {model !== undefined && model.problems.length > 0 && (
        <ul className="stack">
          {model.problems.map((problem, at) => (
            // A problem has no id of its own; its place in the list is its name.
            <Problem key={at} problem={problem} model={model} deeds={deeds} />
          ))}
        </ul>
      )}
    </Frame>
  );
}

function Problem(props: { readonly problem: AdviceProblem; readonly model: ProblemsModel; readonly deeds: Deeds }) {
  const { problem, model, deeds } = props;
  const s = useScreens();
  const today = useToday();
  const said = wordsFor(model.refs).problem(problem, today);
  const lines = entriesOf(problem).flatMap((entry) => model.lines.get(entry) ?? []);
  return (
    <li className="card">
      <h2>{said.what}</h2>
      <p>{said.mend}</p>
      <Reasons problem={problem} model={model} />
      {problem.code === "rival-corrections" && <Rivals problem={problem} deeds={deeds} />}
      {problem.code === "same-kid" && <OneOrTwo problem={problem} deeds={deeds} />}
      {lines.map((line) => (
        <Line key={line.entry} line={line} problem={problem} deeds={deeds} />
      ))}
      {animalsOf(problem, lines).map((id) => (
        <Link key={id} href={`/animal/${id}`} className="press">
          {s.problems.open}: {words.label(model.refs.get(id) ?? nameless(id))}
        </Link>
      ))}
    </li>
  );
}

/** The records that may be wrong, by name, each with how likely it is. */
function Reasons({ problem, model }: { readonly problem: AdviceProblem; readonly model: ProblemsModel }) {
  const s = useScreens();
  const lines = reasonsSaid(loci, model.reasons.get(problem), (id) => words.label(model.refs.get(id) ?? nameless(id)));
  if (lines.length === 0) return null;
  return (
    <>
      <h3>{s.loci.behind}</h3>
      <ol className="plain-lines">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ol>
    </>
  );
}

/** Two corrections of one entry that say different things: a person chooses, and nothing is lost. */
function Rivals(props: {
  readonly problem: Extract<AdviceProblem, { readonly code: "rival-corrections" }>;
  readonly deeds: Deeds;
}) {
  const { problem, deeds } = props;
  const s = useScreens();
  const today = useToday();
  const rivals = useAsked((answers) => answers.rivals(problem.rivals), [problem.entry]).value ?? [];
  const choose = (rival: Replacement): void => {
    const body = { entry: problem.entry, fact: rival.fact, settles: [...problem.rivals] };
    const said = s.problems.chosen(factSaid(s, rival.fact), s.animal.by(rival.by));
    void deeds.act(said, [{ kind: "replace", on: today, body }]);
  };
  return (
    <>
      {rivals.map((rival) => (
        <div key={rival.id} className="history-line">
          <span>
            <b>{factSaid(s, rival.fact)}</b>
            <br />
            <span className="quiet">{s.animal.by(rival.by)}</span>
          </span>
          <button
            type="button"
            className="press"
            aria-label={`${s.problems.choose}: ${factSaid(s, rival.fact)}, ${s.animal.by(rival.by)}`}
            onClick={() => choose(rival)}
          >
            {s.problems.choose}
          </button>
        </div>
      ))}
    </>
  );
}

/** One kid entered on both phones, or two: either answer is kept, and can be taken back. */
function OneOrTwo(props: {
  readonly problem: Extract<AdviceProblem, { readonly code: "same-kid" }>;
  readonly deeds: Deeds;
}) {
  const s = useScreens();
  const today = useToday();
  const { problem, deeds } = props;
  const [one, other] = problem.animals.map((kid) => words.label(kid));
  const answer = (said: string, value: SameAnswer) =>
    void deeds.act(said, [{ kind: "setting", on: today, body: { key: problem.key, value } }]);
  return (
    <div className="two">
      <button type="button" className="press main" onClick={() => answer(s.problems.isOne(`${one}, ${other}`), "one")}>
        {s.problems.oneKid}
      </button>
      <button type="button" className="press" onClick={() => answer(s.problems.areTwo(`${one}, ${other}`), "two")}>
        {s.problems.twoKids}
      </button>
    </div>
  );
}

function Line(props: { readonly line: HistoryLine; readonly problem: AdviceProblem; readonly deeds: Deeds }) {
  const { line, problem, deeds } = props;
  const s = useScreens();
  const today = useToday();
  const said = s.problems.entry(s.animal.kinds[line.kind], words.day(line.on, today), line.by);
  return (
    <div className="history-line">
      <span>{said}</span>
      {problem.code !== "rival-corrections" && problem.code !== "same-kid" && line.state === "stands" && (
        <button
          type="button"
          className="press snug"
          onClick={() => void deeds.strike(s.problems.struck(said), [line.entry])}
        >
          {s.problems.strike}
        </button>
      )}
    </div>
  );
}
