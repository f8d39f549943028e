import { Drawn } from "./drawn.tsx";

/* Icons of places and actions. Each stands beside its word; none speaks alone. */

/** Today: a day sheet on a nail with its first line ticked. */
export const TodayIcon = () => (
  <Drawn>
    <path d="M18 22 H78 V88 H18 Z" strokeWidth={7} />
    <path d="M48 8 V22 M30 46 L38 54 L50 38 M58 48 H68 M30 72 H66" strokeWidth={7} />
  </Drawn>
);

/** Animals: an ear tag. */
export const AnimalsIcon = () => (
  <Drawn>
    <path d="M36 8 H60 V30 L80 50 V88 H16 V50 L36 30 Z" strokeWidth={7} />
    <circle cx={48} cy={24} r={4} strokeWidth={6} />
    <path d="M34 66 H62" strokeWidth={7} />
  </Drawn>
);

/** Plan: two weeks of days ruled on a board. */
export const PlanIcon = () => (
  <Drawn>
    <path d="M10 18 H86 V84 H10 Z M10 40 H86 M36 40 V84 M61 40 V84 M10 62 H86" strokeWidth={6} />
    <path d="M28 8 V24 M68 8 V24" strokeWidth={7} />
  </Drawn>
);

/** Safe: a chest with its lid down and a latch. */
export const SafeIcon = () => (
  <Drawn>
    <path d="M8 42 C8 22 20 16 30 16 H66 C76 16 88 22 88 42 V82 H8 Z M8 46 H88" strokeWidth={7} />
    <path d="M40 40 H56 V58 H40 Z" strokeWidth={6} />
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

/** A kidding: a young one beside a grown one, as two ear-to-ear crowns. */
export const KiddingIcon = () => (
  <Drawn>
    <path d="M22 20 C22 8 50 8 50 20 L46 56 C44 66 28 66 26 56 Z M22 24 L8 32 M50 24 L62 32" strokeWidth={7} />
    <path d="M60 56 C60 48 80 48 80 56 L77 80 C75 88 65 88 63 80 Z M60 58 L51 64 M80 58 L90 64" strokeWidth={6} />
  </Drawn>
);
