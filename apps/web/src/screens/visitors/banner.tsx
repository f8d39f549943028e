import { Link } from "wouter";
import { StatusMark } from "../../drawings/marks.tsx";
import { useAsked, useScreens, useToday } from "../../house/use-house.tsx";

/** While kids are being born: one line that says who keeps away, and opens the rest. Nothing is shown at other times. */
export function KiddingTimeBanner() {
  const s = useScreens();
  const today = useToday();
  const model = useAsked((answers) => answers.visitors(today), [today]).value;
  if (model?.state !== "open") return null;
  return (
    <Link href="/visitors" className="row now banner">
      <span className="margin">
        <StatusMark status="now" />
      </span>
      <span className="body">
        <span className="who">{s.safety.banner}</span>
        <span>{s.safety.bannerSay}</span>
      </span>
    </Link>
  );
}
