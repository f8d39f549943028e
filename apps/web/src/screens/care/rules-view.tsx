import { careSetting } from "@pollard/advice";
import type { Fact } from "@pollard/records";
import { care, useAsked, useScreens, useToday } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Stepper } from "../../parts/answers/stepper.tsx";
import { type Deeds, useDeeds } from "../../parts/keeping/use-deed.ts";
import type { CareRuleLine } from "../../worker/season-answers.ts";
import { type DayEnd, movedDays } from "./model.ts";
import { sourceSaid } from "./view.tsx";

/** Every task of care: whether it reminds, on which days, whose word that is; the vet's days win. */
export function CareRulesScreen() {
  const s = useScreens();
  const deeds = useDeeds();
  const rules = useAsked((answers) => answers.careRules(), []).value ?? [];
  return (
    <Frame
      heading={s.care.rulesTitle}
      title={s.care.rulesTitle}
      back="/care"
      place="today"
      dock={deeds.saving.state === "nothing" ? undefined : <DeedLine deeds={deeds} />}
    >
      <h1 className="in-board">{s.care.rulesTitle}</h1>
      <p>{s.care.rulesSay}</p>
      <ul className="stack">
        {rules.map((rule) => (
          <Rule key={rule.code} rule={rule} deeds={deeds} />
        ))}
      </ul>
      <p className="quiet">{care.lawNote}</p>
    </Frame>
  );
}

function Rule({ rule, deeds }: { readonly rule: CareRuleLine; readonly deeds: Deeds }) {
  const s = useScreens();
  const today = useToday();
  const title = care.title(rule.code);
  const keep = (said: string, settings: readonly { readonly key: string; readonly value: string | number }[]): void => {
    const facts = settings.map(({ key, value }): Fact => ({ kind: "setting", on: today, body: { key, value } }));
    if (facts.length > 0) void deeds.act(said, facts);
  };
  const move = (end: DayEnd, way: "less" | "more"): void => {
    const settings = movedDays(rule.code, rule, end, way);
    const [from = rule.from, by = rule.by] = settings.map(({ value }) => value);
    keep(s.care.ruleNow(title, from, by), settings);
  };
  const isOwn = rule.from !== rule.usual.from || rule.by !== rule.usual.by;
  return (
    <li className="card">
      <h2>{title}</h2>
      <p>{care.why(rule.code)}</p>
      <Answers
        name={`state-${rule.code}`}
        legend={title}
        legendShown="unseen"
        shape="small"
        value={rule.state}
        onAnswer={(state) =>
          keep(s.care.ruleStateNow(title, s.care.ruleOn[state]), [{ key: careSetting(rule.code), value: state }])
        }
        choices={(["on", "off"] as const).map((state) => ({ value: state, label: s.care.ruleOn[state] }))}
      />
      {rule.state === "on" && (
        <>
          {(["from", "by"] as const).map((end) => (
            <Stepper
              key={end}
              label={`${title}: ${end === "from" ? s.care.ruleFrom : s.care.ruleBy}`}
              shown={end === "from" ? s.care.ruleFrom : s.care.ruleBy}
              value={rule[end]}
              onStep={(way) => move(end, way)}
            />
          ))}
          <p className="quiet">
            {s.care.anchors[rule.anchor]} {isOwn ? s.care.vetDays : s.care.source(sourceSaid(s, rule.usual.source))}
          </p>
          {isOwn && (
            <button
              type="button"
              className="press"
              aria-label={`${s.care.takeBack}: ${title}`}
              onClick={() =>
                keep(
                  s.care.ruleNow(title, rule.usual.from, rule.usual.by),
                  (["from", "by"] as const).map((end) => ({
                    key: careSetting(rule.code, end),
                    value: rule.usual[end],
                  })),
                )
              }
            >
              {s.care.takeBack}
            </button>
          )}
        </>
      )}
    </li>
  );
}
