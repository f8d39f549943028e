import type { ComparedKid } from "@pollard/advice";
import { animalId } from "@pollard/genetics";
import { Link } from "wouter";
import { SexMark } from "../../drawings/marks.tsx";
import { SignDrawing } from "../../drawings/sign-drawing.tsx";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { capital } from "../../parts/capital.ts";
import { CountedSquares } from "../../parts/pictures/chance.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { GoatLine, Lines } from "../../parts/lists/lines.tsx";
import { NotHere } from "../../parts/frame/not-here.tsx";
import { Told } from "../../parts/frame/told.tsx";
import { findingDrawn } from "../answer/model.ts";
import { useGate } from "../blind/use-gate.ts";
import { besideOf, hornsCounted } from "./model.ts";

/** Two kids of a litter side by side: what was found on each head, what it looks like, what to do. */
export function CompareScreen({ kid, other }: { readonly kid: string; readonly other: string | undefined }) {
  const s = useScreens();
  const asked = useAsked((answers) => answers.mates(animalId(kid)), [kid]);
  const mates = asked.value ?? [];
  const beside = besideOf(kid, other, mates);
  if (asked.value !== undefined && beside.state === "two") return <Pair one={kid} other={beside.other} />;
  return (
    <Frame heading={s.compare.title} title={s.compare.title} back={`/animal/${kid}`} place="animals">
      <h1 className="in-board">{s.compare.title}</h1>
      {asked.value === undefined ? null : beside.state === "alone" ? (
        <p>{s.compare.alone}</p>
      ) : (
        <>
          <p>{s.compare.chooseHow}</p>
          <Lines>
            {mates
              .filter((mate) => mate.id !== kid)
              .map((mate) => (
                <GoatLine key={mate.id} of={mate} href={`/compare/${kid}/${mate.id}`} />
              ))}
          </Lines>
        </>
      )}
    </Frame>
  );
}

function Pair({ one, other }: { readonly one: string; readonly other: string }) {
  const s = useScreens();
  const today = useToday();
  const asked = useAsked((answers) => answers.compare(animalId(one), animalId(other), today), [one, other, today]);
  const model = asked.value;
  const gates = [useGate(one, model?.kids[0].kid), useGate(other, model?.kids[1].kid)];
  if (model === undefined && !asked.working)
    return <NotHere said={s.frame.noSuchAnimal} back={`/animal/${one}`} place="animals" />;
  if (model === undefined || gates.includes("looking"))
    return (
      <Frame heading={s.compare.title} title={s.compare.title} back={`/animal/${one}`} place="animals">
        <Told>{s.frame.working}</Told>
      </Frame>
    );
  const names = model.kids.map(({ kid }) => words.label(kid.kid));
  const title = s.compare.of(names[0] ?? "", names[1] ?? "");
  const sides = model.kids.map((side, at) => ({ side, hidden: gates[at] !== "open" }));
  return (
    <Frame heading={title} title={title} back={`/animal/${one}`} place="animals">
      <h1 className="in-board">{title}</h1>
      <table className="pair">
        <thead>
          <tr>
            {model.kids.map(({ kid }) => (
              <th key={kid.kid.id} scope="col">
                <SexMark sex={kid.kid.sex} label={s.animals.sex[kid.kid.sex]} /> {words.label(kid.kid)}
              </th>
            ))}
          </tr>
        </thead>
        {sides[0]?.side.signs.map(({ sign }, at) => (
          <tbody key={sign}>
            <tr className="sign-name">
              <th colSpan={2} scope="rowgroup">
                {s.sign[sign].name}
              </th>
            </tr>
            <tr>
              {sides.map(({ side, hidden }) => (
                <td key={side.kid.kid.id}>
                  {hidden ? <span className="quiet">{s.compare.hidden}</span> : <Found of={side} at={at} />}
                </td>
              ))}
            </tr>
          </tbody>
        ))}
        <tbody>
          <tr className="sign-name">
            <th colSpan={2} scope="rowgroup">
              {s.compare.belief}
            </th>
          </tr>
          <tr>
            {sides.map(({ side, hidden }) => (
              <td key={side.kid.kid.id}>{hidden ? <Hidden of={side} /> : <Belief of={side} />}</td>
            ))}
          </tr>
          <tr className="sign-name">
            <th colSpan={2} scope="rowgroup">
              {s.compare.advice}
            </th>
          </tr>
          <tr>
            {sides.map(({ side, hidden }) => (
              <td key={side.kid.kid.id}>
                {!hidden && <Advised of={side} />}
                <p>
                  <Link href={`/animal/${side.kid.kid.id}`} className="cell-link">
                    {s.compare.open}
                  </Link>
                </p>
              </td>
            ))}
          </tr>
        </tbody>
      </table>
    </Frame>
  );
}

function Found({ of, at }: { readonly of: ComparedKid; readonly at: number }) {
  const s = useScreens();
  const sign = of.signs[at];
  if (sign?.found === undefined) return <span className="quiet">{s.compare.notFound}</span>;
  const { finding, ageDays, by } = sign.found;
  return (
    <>
      <SignDrawing sign={sign.sign} finding={findingDrawn(finding) ?? ""} />
      <b>{words.finding(sign.sign, finding)}</b>
      <br />
      <span className="quiet">{s.compare.seen(s.animal.ageDays(ageDays), by)}</span>
    </>
  );
}

function Belief({ of }: { readonly of: ComparedKid }) {
  const s = useScreens();
  const counted = hornsCounted(of);
  if (counted === undefined)
    return (
      <>
        <p>{s.compare.notRead}</p>
        <Link href={`/reading/${of.kid.kid.id}`} className="cell-link">
          {s.animal.readHead}
        </Link>
      </>
    );
  const sentence = words.horns(counted);
  return (
    <>
      <CountedSquares counted={counted} label={sentence} />
      <p>{sentence}</p>
    </>
  );
}

function Hidden({ of }: { readonly of: ComparedKid }) {
  const s = useScreens();
  const readers = of.kid.belief?.readers ?? [];
  const names = words.named(readers);
  return (
    <>
      <p>{readers.length === 1 ? s.blind.readBy(names) : s.blind.readByMany(names)}</p>
      <Link href={`/reading/${of.kid.kid.id}`} className="cell-link">
        {s.blind.read}
      </Link>
    </>
  );
}

function Advised({ of }: { readonly of: ComparedKid }) {
  const today = useToday();
  const said = words.advice(of.kid.advice, today);
  return (
    <>
      <b>{said.title}</b>
      {said.when !== undefined && <p>{capital(said.when)}</p>}
    </>
  );
}
