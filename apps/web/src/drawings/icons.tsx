import { Drawn } from "./drawn.tsx";

/* Icons of places and actions. Each stands beside its word; none speaks alone. */

/** Today: a slate in its lashed frame, with a chalk tick. */
export const TodayIcon = () => (
  <Drawn>
    <path d="M6 20 H90 M6 76 H90 M20 6 V90 M76 6 V90" strokeWidth={7} />
    <path d="M33 48 L44 60 L64 34" strokeWidth={10} />
  </Drawn>
);

/** Animals: a hornless head seen from above, as it is read. */
export const AnimalsIcon = () => (
  <Drawn>
    <path d="M32 28 C34 14 62 14 64 28 L59 76 C57 90 39 90 37 76 Z" strokeWidth={7} />
    <path
      d="M32 32 C22 24 10 28 4 40 C14 48 26 46 33 42 M64 32 C74 24 86 28 92 40 C82 48 70 46 63 42"
      strokeWidth={7}
    />
    <path d="M44 78 V79 M52 78 V79" strokeWidth={7} />
  </Drawn>
);

/** Plan: days on a board that hangs from two pegs, one of them ringed. */
export const PlanIcon = () => (
  <Drawn>
    <path d="M8 22 H88 V88 H8 Z M8 42 H88" strokeWidth={7} />
    <path d="M28 8 V26 M68 8 V26" strokeWidth={8} />
    <path d="M24 57 H25 M24 74 H25 M43 57 H44 M43 74 H44" strokeWidth={9} />
    <circle cx={67} cy={65} r={11} strokeWidth={7} />
  </Drawn>
);

/** Safe: a barn with its braced door shut. */
export const SafeIcon = () => (
  <Drawn>
    <path d="M6 46 L20 22 L48 8 L76 22 L90 46 M14 36 V88 H82 V36" strokeWidth={7} />
    <path d="M32 88 V54 H64 V88 M32 54 L64 88 M64 54 L32 88" strokeWidth={6} />
  </Drawn>
);

export const BackIcon = () => (
  <Drawn>
    <path d="M58 16 L26 48 L58 80" strokeWidth={9} />
  </Drawn>
);

export const TickIcon = () => (
  <Drawn>
    <path d="M14 52 L38 76 L84 22" strokeWidth={11} />
  </Drawn>
);

/** Search by tag: a tag under a glass. */
export const SearchIcon = () => (
  <Drawn>
    <circle cx={40} cy={40} r={28} strokeWidth={8} />
    <path d="M61 61 L86 86" strokeWidth={10} />
  </Drawn>
);

export const PlusIcon = () => (
  <Drawn>
    <path d="M48 14 V82 M14 48 H82" strokeWidth={10} />
  </Drawn>
);

export const PrintIcon = () => (
  <Drawn>
    <path d="M26 40 V10 H70 V40 M26 70 H10 V40 H86 V70 H70 M26 58 H70 V88 H26 Z" strokeWidth={7} />
  </Drawn>
);

/** More on a line: three knobs side by side. */
export const MoreIcon = () => (
  <Drawn>
    <path d="M14 48 H15 M48 48 H49 M82 48 H83" strokeWidth={18} />
  </Drawn>
);

/** A kidding: a young one beside a grown one, as two ear-to-ear crowns. */
export const KiddingIcon = () => (
  <Drawn>
    <path d="M22 20 C22 8 50 8 50 20 L46 56 C44 66 28 66 26 56 Z M22 24 L8 32 M50 24 L62 32" strokeWidth={7} />
    <path d="M60 56 C60 48 80 48 80 56 L77 80 C75 88 65 88 63 80 Z M60 58 L51 64 M80 58 L90 64" strokeWidth={6} />
  </Drawn>
);
