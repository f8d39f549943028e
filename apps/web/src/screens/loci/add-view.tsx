import { useState } from "react";
import { loci, useAsked, useGround, useScreens, useToday } from "../../house/use-house.tsx";
import { goTo } from "../../parts/frame/address.ts";
import { Answers } from "../../parts/answers/answers.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { type Lack, Lacks } from "../../parts/keeping/lacks.tsx";
import { SavedLine, type Saving } from "../../parts/keeping/saved-line.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import { typedNumber } from "../../parts/answers/typed-number.ts";
import { Told } from "../../parts/frame/told.tsx";
import { allelesOf, EMPTY, locusMissing, ownLocus, type OwnLocusAnswers, previewOf } from "./model.ts";

/** A trait of the keeper's own: described once, then inferred for every goat. */
export function AddLocusScreen() {
  const s = useScreens();
  const today = useToday();
  const { house } = useGround();
  const lines = useAsked((answers) => answers.loci(), []).value?.lines ?? [];
  const [answers, setAnswers] = useState<OwnLocusAnswers>(EMPTY);
  const [entry] = useState(() => house.newId());
  const [saving, setSaving] = useState<Saving>({ state: "nothing" });
  const [tries, setTries] = useState(0);
  const say = (answer: Partial<OwnLocusAnswers>): void => setAnswers({ ...answers, ...answer });
  const alleles = allelesOf(answers);
  const taken = new Set(lines.map(({ locus }) => locus.id));
  const asked = { name: s.loci.name, alleles: s.loci.alleleList, look: s.loci.look, otherwise: s.loci.otherwise };
  const missing = locusMissing(answers).map((field) => ({ field, said: s.frame.toAnswer(asked[field]) }));
  const lacks: readonly Lack[] = missing.length > 0 ? missing : wrongIn(ownLocus(answers, taken), s.loci);
  const store = async (): Promise<void> => {
    const made = ownLocus(answers, taken);
    if (!made.ok) {
      setTries(tries + 1);
      return;
    }
    if (saving.state === "saving") return;
    setSaving({ state: "saving" });
    const kept = await house.record([{ id: entry, fact: { kind: "setting", on: today, body: made.value } }]);
    if (kept.ok) goTo("/loci", { replace: true });
    else setSaving({ state: "failed", why: kept.error.code, retry: () => void store() });
  };
  return (
    <Frame
      heading={s.loci.add}
      title={s.loci.add}
      back="/loci"
      dock={
        <>
          {saving.state !== "nothing" && <SavedLine saving={saving} />}
          <button type="button" className="press main" onClick={() => void store()}>
            {s.loci.store}
          </button>
        </>
      }
    >
      <Lacks of={{ tries, lacks: tries === 0 ? [] : lacks }}>
        <h1 className="in-board">{s.loci.add}</h1>
        <Told>{s.loci.addIntro}</Told>
        <TextField
          name="name"
          label={s.loci.name}
          hint={s.loci.nameHint}
          need="needed"
          value={answers.name}
          onText={(name) => say({ name })}
        />
        <TextField
          name="alleles"
          label={s.loci.alleleList}
          hint={s.loci.alleleHint}
          need="needed"
          value={answers.alleles}
          onText={(text) => say({ alleles: text })}
        />
        {alleles.slice(0, -1).map((allele, i) => (
          <TextField
            key={allele}
            {...(i === 0 ? { name: "shares" } : {})}
            label={s.loci.shares(allele)}
            hint={s.loci.sharesWhy}
            keys="decimal"
            value={answers.shares[i] ?? ""}
            wrong={typedNumber(answers.shares[i] ?? "").state === "unclear" ? s.fact.weightWrong.unclear : undefined}
            onText={(text) => say({ shares: alleles.map((_, at) => (at === i ? text : (answers.shares[at] ?? ""))) })}
          />
        ))}
        <Answers
          name="inheritance"
          legend={s.loci.inheritance}
          value={answers.inheritance}
          onAnswer={(inheritance) => say({ inheritance })}
          choices={(["autosomal", "x-linked"] as const).map((value) => ({ value, label: s.loci.inheritances[value] }))}
        />
        <Answers
          name="shows"
          legend={s.loci.shows}
          shape="column"
          value={answers.shows}
          onAnswer={(shows) => say({ shows })}
          choices={(["never", "one", "two"] as const).map((value) => ({ value, label: s.loci.showsAnswers[value] }))}
        />
        {answers.shows !== "never" && (
          <>
            <TextField
              name="look"
              label={s.loci.look}
              need="needed"
              value={answers.look}
              onText={(look) => say({ look })}
            />
            <TextField
              name="otherwise"
              label={s.loci.otherwise}
              need="needed"
              value={answers.otherwise}
              onText={(otherwise) => say({ otherwise })}
            />
          </>
        )}
        <Preview answers={answers} taken={taken} />
      </Lacks>
    </Frame>
  );
}

/** What is wrong with a description in which nothing is missing: with its name, else with its shares or alleles. */
function wrongIn(made: ReturnType<typeof ownLocus>, said: ReturnType<typeof useScreens>["loci"]): readonly Lack[] {
  if (made.ok) return [];
  const { error } = made;
  if (!("path" in error)) return [{ field: "name", said: said[error.code] }];
  return [{ field: error.path.startsWith("frequencies") ? "shares" : "alleles", said: loci.locusProblem(error) }];
}

/** What the description means, while it is being written. */
function Preview(props: { readonly answers: OwnLocusAnswers; readonly taken: ReadonlySet<string> }) {
  const s = useScreens();
  const preview = previewOf(props.answers, props.taken);
  if (preview === undefined) return null;
  const lines = [
    ...preview.shows.map(({ genotype, look }) => s.loci.shown(genotype, look)),
    ...preview.inHundred.map(({ who, count, look }) => s.loci.ofHundred(who, count, look)),
  ];
  return (
    <section className="part" aria-live="polite">
      <h2>{s.loci.means}</h2>
      <ul className="plain-lines">
        {(lines.length === 0 ? [s.loci.onlyTested] : lines).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}
