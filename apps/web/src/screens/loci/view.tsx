import { frequencyKey, frequencyValue, locusKey, type LocusLine } from "@pollard/advice";
import type { Locus } from "@pollard/genetics";
import { useState } from "react";
import { loci, useAsked, useScreens, useToday } from "../../house/use-house.tsx";
import { DeedLine } from "../../parts/keeping/deed-line.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { Stepper } from "../../parts/answers/stepper.tsx";
import { type Deeds, useDeeds } from "../../parts/keeping/use-deed.ts";

/** The choice that is no breed. */
const EVERY = "";

/** Every locus the herd is asked about: how sure its inheritance is, what founders are taken to carry, and the keeper's own. */
export function LociScreen() {
  const s = useScreens();
  const deeds = useDeeds();
  const [breed, setBreed] = useState<string>();
  const model = useAsked((answers) => answers.loci(breed), [breed]).value;
  return (
    <Frame
      heading={s.loci.title}
      title={s.loci.title}
      back="/settings"
      place="safe"
      dock={deeds.saving.state === "nothing" ? undefined : <DeedLine deeds={deeds} />}
    >
      <h1 className="in-board">{s.loci.title}</h1>
      <p>{s.loci.intro}</p>
      <a className="press main" href="#/loci/add">
        {s.loci.add}
      </a>
      {model?.problems.map(({ locus, problem }) => (
        <p key={locus} className="card">
          {locus}: {loci.locusProblem(problem)}
        </p>
      ))}
      {model !== undefined && model.breeds.length > 1 && (
        <Answers
          name="breed"
          legend={s.loci.figuresFor}
          shape="small"
          choices={[
            { value: EVERY, label: s.loci.everyBreed },
            ...model.breeds.map((each) => ({ value: each, label: each })),
          ]}
          value={breed ?? EVERY}
          onAnswer={(chosen) => setBreed(chosen === EVERY ? undefined : chosen)}
        />
      )}
      <ul className="stack">
        {model?.lines.map((line) => (
          <LocusCard key={line.locus.id} line={line} breed={model.breed} deeds={deeds} />
        ))}
      </ul>
    </Frame>
  );
}

interface CardProps {
  readonly line: LocusLine;
  /** Whose founders' frequencies are shown and set; every breed's without it. */
  readonly breed: string | undefined;
  readonly deeds: Deeds;
}

function LocusCard({ line, breed, deeds }: CardProps) {
  const s = useScreens();
  const today = useToday();
  const { locus, inHundred } = line;
  const { alleles } = locus;
  const name = loci.name(locus);
  const named = breed === undefined ? name : s.loci.nameIn(name, breed);
  const set = (said: string, key: string, value: string | number): void =>
    void deeds.act(said, [{ kind: "setting", on: today, body: { key, value } }]);
  // Of two alleles the second has what the first leaves.
  const settable = alleles.length === 2 ? alleles.slice(0, 1) : alleles;
  const shares = alleles.map((allele, i) => s.loci.share(inHundred[i] ?? 0, allele)).join(", ");
  return (
    <li className="card">
      <h2>{named}</h2>
      {line.from === "keeper" && <p className="chip-line">{s.loci.own}</p>}
      <p>
        {s.loci.alleles(locus.alleles.join(", "))} {s.loci.passedOn[locus.inheritance]}
      </p>
      {standings(locus).map((standing) => (
        <p key={standing}>{s.loci.standing[standing]}</p>
      ))}
      {locus.omia !== undefined && <p className="quiet">{s.loci.omia(locus.omia)}</p>}
      <p>{s.loci.recorded(line.recorded)}</p>
      <p>
        {s.loci.ofStrangers(shares)} {line.isOwnFrequency && s.loci.yours}
      </p>
      {settable.map((allele, at) => {
        const count = inHundred[at] ?? 0;
        return (
          <Stepper
            key={allele}
            label={`${named}: ${s.loci.inHundred(allele)}`}
            shown={s.loci.inHundred(allele)}
            value={inHundredShown(count)}
            onStep={(way) => {
              const next = Math.min(99, Math.max(1, stepped(count, way)));
              if (way === "less" ? next < count : next > count)
                set(
                  s.loci.nowInHundred(named, allele, next),
                  frequencyKey(locus, breed),
                  frequencyValue(line.shares, at, next),
                );
            }}
          />
        );
      })}
      {line.isOwnFrequency && (
        <button
          type="button"
          className="press"
          aria-label={`${s.loci.usual}: ${named}`}
          onClick={() => set(s.loci.usual, frequencyKey(locus, breed), 0)}
        >
          {s.loci.usual}
        </button>
      )}
      {line.from === "keeper" && (
        <button
          type="button"
          className="press"
          aria-label={`${s.loci.remove}: ${name}`}
          onClick={() => set(s.loci.removed(name), locusKey(locus.id), "")}
        >
          {s.loci.remove}
        </button>
      )}
    </li>
  );
}

/** How sure the inheritance of what is seen is, each way once; a locus that is only tested is read in studies. */
const standings = ({ traits }: Locus) => [...new Set((traits ?? []).map(({ standing }) => standing))];

/** What rounds to none or all of a hundred is neither. */
const inHundredShown = (count: number): number | string => (count < 1 ? "<1" : count > 99 ? ">99" : count);

/** Nobody knows such a share to the unit: fives, and units near the ends. */
function stepped(count: number, way: "less" | "more"): number {
  const size = count < 5 || (count === 5 && way === "less") || count > 95 || (count === 95 && way === "more") ? 1 : 5;
  return way === "more" ? count + size : count - size;
}
