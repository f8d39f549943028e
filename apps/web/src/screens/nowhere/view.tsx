import { useScreens } from "../../house/use-house.tsx";
import { Frame } from "../../parts/frame/frame.tsx";

/** An address that leads to no screen, and the way back. */
export function Nowhere() {
  const s = useScreens();
  return (
    <Frame heading={s.frame.notFound} title={s.frame.app} back="/">
      <h1>{s.frame.notFound}</h1>
      <a className="press main" href="#/">
        {s.frame.toToday}
      </a>
    </Frame>
  );
}
