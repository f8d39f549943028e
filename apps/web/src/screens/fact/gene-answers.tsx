import { POLLED } from "@pollard/genetics";
import { loci, useAsked, useScreens } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";
import { TextField } from "../../parts/answers/text-field.tsx";
import type { FactAnswers } from "./model.ts";

interface Asking {
  readonly answers: FactAnswers;
  readonly say: (answer: Partial<FactAnswers>) => void;
}

/** A laboratory's result: which gene, and the two alleles on the paper. */
export function TestAnswers({ answers, say }: Asking) {
  const s = useScreens();
  const lines = useAsked((herd) => herd.loci(), []).value?.lines ?? [];
  const locus = lines.find((line) => line.locus.id === answers.locus)?.locus;
  return (
    <>
      <Answers
        name="locus"
        legend={s.loci.test}
        shape="column"
        value={answers.locus}
        onAnswer={(id) => say({ locus: id, alleles: [] })}
        choices={lines.map((line) => ({ value: line.locus.id, label: loci.name(line.locus) }))}
      />
      {answers.locus === POLLED.id && (
        <Answers
          name="genotype"
          legend={s.fact.dna}
          shape="column"
          value={answers.genotype}
          onAnswer={(genotype) => say({ genotype })}
          choices={(["PP", "Pp", "pp"] as const).map((genotype) => ({
            value: genotype,
            label: s.fact.dnaAnswers[genotype],
          }))}
        />
      )}
      {locus !== undefined &&
        locus.id !== POLLED.id &&
        ([s.loci.first, s.loci.second] as const).map((legend, at) => (
          <Answers
            key={legend}
            name={`allele-${at}`}
            legend={legend}
            shape="small"
            value={answers.alleles[at]}
            onAnswer={(allele) => say({ alleles: [0, 1].map((i) => (i === at ? allele : (answers.alleles[i] ?? ""))) })}
            choices={locus.alleles.map((allele) => ({ value: allele, label: allele }))}
          />
        ))}
      <TextField label={s.fact.lab} value={answers.lab} onText={(lab) => say({ lab })} />
    </>
  );
}

/** Something seen that a gene makes: wattles, ears, a trait of the keeper's own. */
export function SeenAnswers({ answers, say }: Asking) {
  const s = useScreens();
  const lines = useAsked((herd) => herd.loci(), []).value?.lines ?? [];
  const traits = lines.flatMap(({ locus }) =>
    (locus.traits ?? []).slice(0, 1).map((trait) => ({ ...trait, name: loci.name(locus) })),
  );
  const trait = traits.find(({ id }) => id === answers.trait);
  return (
    <>
      <Answers
        name="trait"
        legend={s.loci.which}
        shape="column"
        value={answers.trait}
        onAnswer={(id) => say({ trait: id, phenotype: undefined })}
        choices={traits.map(({ id, name }) => ({ value: id, label: name }))}
      />
      {trait !== undefined && (
        <Answers
          name="phenotype"
          legend={s.loci.seen}
          shape="column"
          value={answers.phenotype}
          onAnswer={(phenotype) => say({ phenotype })}
          choices={trait.phenotypes.map((phenotype) => ({ value: phenotype, label: loci.look(phenotype) }))}
        />
      )}
    </>
  );
}
