import { Link } from "wouter";
import { useScreens, words } from "../../house/use-house.tsx";
import type { Gate } from "./model.ts";

/** What stands in place of a head's answer before one has read it oneself: who read it, and the way to do so. */
export function BlindCard(props: {
  readonly kid: string;
  readonly readers: readonly string[];
  readonly gate: Exclude<Gate, "open">;
}) {
  const s = useScreens();
  const { kid, readers, gate } = props;
  const names = words.named(readers);
  return (
    <section className="card hatched" aria-label={s.animal.head}>
      {gate === "under-way" ? (
        <>
          <p className="say">{s.blind.underWay}</p>
          <p>{s.blind.underWayWhy}</p>
        </>
      ) : (
        <>
          <p className="say">{s.blind.title}</p>
          <p>{readers.length === 1 ? s.blind.readBy(names) : s.blind.readByMany(names)}</p>
          <p>{s.blind.why}</p>
        </>
      )}
      <div className="two">
        <Link href={`/reading/${kid}`} className="press main snug">
          {gate === "under-way" ? s.blind.carryOn : s.blind.read}
        </Link>
        <Link href={`/answer/${kid}/shown`} className="press snug">
          {s.blind.show}
        </Link>
      </div>
    </section>
  );
}
