import { animalId } from "@pollard/genetics";
import { useState } from "react";
import { useAsked, useGround, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { DayChoice } from "../../parts/answers/day-choice.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Lacks } from "../../parts/keeping/lacks.tsx";
import { StoreDock, useStoring } from "../../parts/keeping/storing.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import { WeightField } from "../../parts/answers/weight-field.tsx";
import { SeenAnswers, TestAnswers } from "./gene-answers.tsx";
import { type FactAnswers, factMissing, firstFact, OTHER_FACTS, otherFact } from "./model.ts";

/** Weight, note, a move, laboratory result, or leaving the herd: the rarer things that are entered about a goat. */
export function FactScreen({ id }: { readonly id: string }) {
  const s = useScreens();
  const today = useToday();
  const { unit } = useGround();
  const ref = useAsked((answers) => answers.ref(animalId(id)), [id]).value;
  const [answers, setAnswers] = useState<FactAnswers>(() => firstFact(today, unit));
  const storing = useStoring(otherFact(answers, animalId(id)), `/animal/${id}`);
  if (ref === undefined) return null;
  const say = (answer: Partial<FactAnswers>): void => setAnswers({ ...answers, ...answer });
  const name = words.label(ref);
  const asked = {
    kind: s.fact.what,
    weight: s.fact.weight[answers.weight.unit],
    how: s.fact.how,
    note: s.fact.note,
    genotype: s.fact.dna,
    "allele-0": s.loci.first,
    "allele-1": s.loci.second,
    trait: s.loci.which,
    phenotype: s.loci.seen,
    moved: s.fact.moved,
    pen: s.fact.pen,
    why: s.fact.why,
  };
  return (
    <Frame
      heading={`${s.fact.title}: ${name}`}
      title={name}
      back={`/animal/${id}`}
      capture="capture"
      dock={<StoreDock storing={storing} label={s.fact.store} />}
    >
      <Lacks
        of={storing.lacking(factMissing(answers).map((field) => ({ field, said: s.frame.toAnswer(asked[field]) })))}
      >
        <h1>{s.fact.title}</h1>
        <Answers
          name="kind"
          legend={s.fact.what}
          value={answers.kind}
          onAnswer={(kind) => say({ kind })}
          choices={OTHER_FACTS.map((kind) => ({ value: kind, label: s.fact.kinds[kind] }))}
        />
        {answers.kind === "weight" && (
          <>
            <WeightField
              name="weight"
              typed={answers.weight}
              need="needed"
              onText={(text) => say({ weight: { ...answers.weight, text } })}
            />
            <Answers
              name="how"
              legend={s.fact.how}
              value={answers.how}
              onAnswer={(how) => say({ how })}
              choices={(["weighed", "guessed"] as const).map((how) => ({ value: how, label: s.fact.hows[how] }))}
            />
          </>
        )}
        {answers.kind === "note" && (
          <TextField
            name="note"
            label={s.fact.note}
            need="needed"
            lines="many"
            value={answers.note}
            onText={(note) => say({ note })}
          />
        )}
        {answers.kind === "dna-test" && <TestAnswers answers={answers} say={say} />}
        {answers.kind === "trait" && <SeenAnswers answers={answers} say={say} />}
        {answers.kind === "move" && (
          <>
            <Answers
              name="moved"
              legend={s.fact.moved}
              value={answers.moved}
              onAnswer={(moved) => say({ moved })}
              choices={(["into", "out"] as const).map((moved) => ({ value: moved, label: s.fact.moves[moved] }))}
            />
            {answers.moved === "into" && (
              <TextField
                name="pen"
                label={s.fact.pen}
                need="needed"
                value={answers.pen}
                onText={(pen) => say({ pen })}
              />
            )}
            <p className="quiet">{s.fact.penWhy}</p>
          </>
        )}
        {answers.kind === "departure" && (
          <>
            <Answers
              name="why"
              legend={s.fact.why}
              value={answers.why}
              onAnswer={(why) => say({ why })}
              choices={(["sold", "died", "slaughtered", "lent", "other"] as const).map((why) => ({
                value: why,
                label: s.fact.whys[why],
              }))}
            />
            <TextField label={s.fact.to} value={answers.to} onText={(to) => say({ to })} />
          </>
        )}
        {answers.kind !== undefined && (
          <DayChoice legend={s.day.question} today={today} value={answers.on} onDay={(on) => say({ on })} />
        )}
      </Lacks>
    </Frame>
  );
}
