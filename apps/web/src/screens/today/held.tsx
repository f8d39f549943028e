import { useState, useSyncExternalStore } from "react";
import { StatusMark } from "../../drawings/marks.tsx";
import { useGround, useScreens } from "../../house/use-house.tsx";

/** What was done with one tap and is on no disk, by name, with the one thing that helps. Nothing where all is kept. */
export function HeldDeedsCard() {
  const s = useScreens();
  const { house } = useGround();
  useSyncExternalStore(house.onChange, () => house.version);
  const [state, setState] = useState<"idle" | "trying">("idle");
  const held = house.held;
  if (held.length === 0) return null;
  const again = async (): Promise<void> => {
    setState("trying");
    for (const { facts, said, who } of held) {
      const kept = await house.record(facts, { said, who });
      if (!kept.ok) break;
    }
    setState("idle");
  };
  return (
    <section className="card resume" aria-label={s.safe.notSavedHeld}>
      <p role="alert" className="saved alarm">
        <StatusMark status="now" />
        {s.safe.notSavedHeld}
      </p>
      <ul className="named-lines">
        {held.map(({ said, facts }) => (
          <li key={facts[0]?.id}>
            <b>{said}</b>
          </li>
        ))}
      </ul>
      <button type="button" className="press main" aria-disabled={state === "trying"} onClick={() => void again()}>
        {s.frame.retry}
      </button>
    </section>
  );
}
