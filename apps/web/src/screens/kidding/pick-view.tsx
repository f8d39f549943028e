import { addDays } from "@pollard/base";
import { Link } from "wouter";
import { PlusIcon, SearchIcon } from "../../drawings/icons.tsx";
import { useAsked, useScreens, useToday, words } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";
import { GoatLine, Lines } from "../../parts/lists/lines.tsx";

/** Days around the likely day within which a doe is offered first when somebody enters a kidding. */
const NEAR_DAYS = 21;

/** Which doe kidded: those due about now first, any other by tag or name. */
export function KiddingPickScreen() {
  const s = useScreens();
  const today = useToday();
  const goats = useAsked((answers) => answers.goats(today), [today]).value;
  const plan = useAsked((answers) => answers.plan(today), [today]).value;
  const does = (goats ?? []).filter((goat) => goat.ref.sex === "doe" && !goat.gone);
  const due = (plan?.due ?? []).filter(({ likely }) => likely <= addDays(today, NEAR_DAYS));
  return (
    <Frame heading={s.kidding.title} title={s.kidding.title} back="/" place="today">
      <h1>{s.kidding.whoKidded}</h1>
      {due.length > 0 && (
        <section className="stack tight">
          <h2>{s.kidding.dueNow}</h2>
          <Lines>
            {due.map(({ doe, from, to }) => (
              <GoatLine key={doe.id} of={doe} href={`/kidding/${doe.id}`}>
                {s.plan.dueRange(words.day(from, today), words.day(to, today))}
              </GoatLine>
            ))}
          </Lines>
        </section>
      )}
      {goats !== undefined && does.length === 0 ? (
        <div className="card">
          <p>{s.kidding.noDoes}</p>
          <Link href="/add" className="press main">
            <PlusIcon />
            {s.animals.add}
          </Link>
        </div>
      ) : (
        <Link href="/find/kidding" className="press main">
          <SearchIcon />
          {s.kidding.otherDoe}
        </Link>
      )}
    </Frame>
  );
}
