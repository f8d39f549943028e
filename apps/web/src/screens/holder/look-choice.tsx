import type { Look } from "../../adapters/own-settings/look.ts";
import { useScreens } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";

/** Day, Sun or Barn; bare hands or gloves; which hand. Takes effect at once, so that the choice shows itself. */
export function LookChoice({ look, onLook }: { readonly look: Look; readonly onLook: (look: Look) => void }) {
  const s = useScreens();
  return (
    <>
      <Answers
        name="light"
        legend={s.holder.light}
        shape="column"
        value={look.light}
        onAnswer={(light) => onLook({ ...look, light })}
        choices={[
          { value: "day", label: s.holder.day, hint: s.holder.dayHint },
          { value: "sun", label: s.holder.sun, hint: s.holder.sunHint },
          { value: "barn", label: s.holder.barn, hint: s.holder.barnHint },
        ]}
      />
      {look.light === "sun" && <p>{s.holder.sunTip}</p>}
      <Answers
        name="hands"
        legend={s.holder.hands}
        value={look.hands}
        onAnswer={(hands) => onLook({ ...look, hands })}
        choices={[
          { value: "bare", label: s.holder.bare },
          { value: "gloves", label: s.holder.gloves, hint: s.holder.glovesHint },
        ]}
      />
      <Answers
        name="side"
        legend={s.holder.side}
        value={look.side}
        onAnswer={(side) => onLook({ ...look, side })}
        choices={[
          { value: "left", label: s.holder.left },
          { value: "right", label: s.holder.right },
        ]}
      />
    </>
  );
}
