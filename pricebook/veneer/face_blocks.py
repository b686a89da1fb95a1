"""Faces and sheets of one veneer as blocks and stock in whole numbers, and back."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pricebook.errors import LayoutError, raise_all
from pricebook.lengths import show
from pricebook.rates import Sheet
from pricebook.takeoff import Face
from pricebook.veneer.centring import can_centre, solve_centred
from pricebook.veneer.checking import check
from pricebook.veneer.face_units import (
    PER_MM,
    blocks,
    numbered,
    offers,
    size_of,
    stock,
)
from pricebook.veneer.fitting import sheet_cuts
from pricebook.veneer.model import Block, Fit, Pattern, Placement, Problem
from pricebook.veneer.plan import PlacedFace, Rest, SheetCut, SheetPlan
from pricebook.veneer.rack import solve_rack_first
from pricebook.veneer.reading import refuse_misfits
from pricebook.veneer.search import Progress


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceBlocks:
    """Faces of one species and veneer as a problem in whole numbers.

    Parameters
    ----------
    faces : tuple of Face
        The faces; a placement's part is an index into them.
    offers : tuple of (Sheet, bool)
        Rows of the price book, and whether from the rack.
    problem : Problem
        The same in whole units, prices in cents.
    lengths : str
        How sizes are printed.
    """

    faces: tuple[Face, ...]
    offers: tuple[tuple[Sheet, bool], ...]
    problem: Problem
    lengths: str

    @classmethod
    def of(
        cls,
        faces: Sequence[Face],
        sheets: Sequence[Sheet],
        stages: int | None,
        lengths: str,
    ) -> FaceBlocks:
        """Read faces and sheets.

        Raises
        ------
        LayoutError
            If there is no sheet, or a face or run fits none, by name.
        """
        on_offer = tuple(offers(sheets))
        if not on_offer:
            raise LayoutError(
                f'no sheet of {faces[0].veneer} veneer "{faces[0].species}" is on '
                f'offer for "{faces[0].name}"; add one to the price book.'
            )
        problem = Problem(
            blocks=tuple(blocks(faces)),
            stocks=tuple(map(stock, on_offer)),
            stages=stages,
        )
        found = cls(
            faces=tuple(faces), offers=on_offer, problem=problem, lengths=lengths
        )
        refuse_misfits(problem, found.name, found._size)
        found._refuse_centred()
        return found

    def name(self, block: Block) -> str:
        """Name a block by its face, or by its run."""
        face = self.faces[block.members[0][0]]
        if len(block.members) > 1:
            return f'the run "{face.run}" of "{face.piece}"'
        return f'"{face.name}" of "{face.piece}"'

    def _size(self, along: int, across: int) -> str:
        one, two = (show(size / PER_MM, self.lengths) for size in (along, across))
        return f"{one} along x {two} across the grain"

    def _centred(self) -> list[int]:
        return [
            number
            for number, block in enumerate(self.problem.blocks)
            if any(self.faces[part].centred for part, _, _ in block.members)
        ]

    def _centres(self) -> list[float]:
        return [
            kind.across / 2
            if sheet.figure_centre_mm is None
            else sheet.figure_centre_mm * PER_MM
            for kind, (sheet, _) in zip(self.problem.stocks, self.offers, strict=True)
        ]

    def _refuse_centred(self) -> None:
        pairs = list(zip(self.problem.stocks, self._centres(), strict=True))
        blocks = [self.problem.blocks[n] for n in self._centred()]
        raise_all(
            LayoutError,
            [
                f"{self.name(block)} is {self._size(*block.forms[0])} and cannot lie "
                "with its centre line on the figure's of any sheet; offer a wider "
                "sheet, or do without centring."
                for block in blocks
                if not any(can_centre(block.forms[0], *pair) for pair in pairs)
            ],
        )

    def solve(
        self, before: int, smallest_mm: float, progress: Progress | None
    ) -> tuple[list[SheetPlan], int, int]:
        """Lay the faces out, check the plan, and give faces and sheets their names.

        Parameters
        ----------
        before : int
            How many sheets the plan already has. [-]
        smallest_mm : float
            A rest with a side shorter than this is waste. [mm]
        progress : callable or None
            Called with steps done, steps in all, and words.

        Returns
        -------
        (list of SheetPlan, int, int)
            The sheets, the least to pay for any plan, and the least taken from
            the rack by one that pays no more. [cents]
        """

        def solver(problem: Problem) -> tuple[list[Pattern], int]:
            return solve_centred(
                problem, self._centred(), self._centres(), self.name, progress
            )

        found = solve_rack_first(
            self.problem, [rack for _, rack in self.offers], solver
        )
        plan = self._rack_first(found.plan)
        self._check(plan)
        sheets = [
            self._sheet_plan(pattern, number, before, smallest_mm)
            for number, pattern in enumerate(plan)
        ]
        return numbered(sheets), found.least_cash_cents, found.least_value_cents

    def _rack_first(self, plan: Sequence[Pattern]) -> list[Pattern]:
        """Take a sheet from the rack instead of buying one of the same size."""
        used = Counter(pattern.stock for pattern in plan)
        done = []
        for pattern in plan:
            stock = self._from_rack(pattern.stock, used)
            used[stock] += 1
            done.append(Pattern(stock, pattern.blocks))
        return done

    def _from_rack(self, stock: int, used: Counter[int]) -> int:
        own = self.problem.stocks[stock]
        if own.most is not None:
            used[stock] -= 1
            return stock
        centres = self._centres()
        for number, kind in enumerate(self.problem.stocks):
            same = (kind.along, kind.across) == (own.along, own.across)
            same = same and centres[number] == centres[stock]
            if same and used[number] < (kind.most or 0):
                return number
        return stock

    def _sheet_plan(
        self, pattern: Pattern, number: int, before: int, smallest_mm: float
    ) -> SheetPlan:
        sheet, rack = self.offers[pattern.stock]
        cuts, rests = sheet_cuts(
            pattern, self.problem, number, math.ceil(smallest_mm * PER_MM)
        )
        return SheetPlan(
            number=before + number + 1,
            sheet=sheet,
            from_rack=rack,
            placed=tuple(self._placed(pattern)),
            cuts=tuple(
                SheetCut(
                    direction=cut.direction,
                    at_mm=cut.at / PER_MM,
                    start_mm=cut.start / PER_MM,
                    end_mm=cut.end / PER_MM,
                )
                for cut in cuts
            ),
            rests=tuple(
                Rest(
                    along_at_mm=rest.along_at / PER_MM,
                    across_at_mm=rest.across_at / PER_MM,
                    along_mm=rest.along / PER_MM,
                    across_mm=rest.across / PER_MM,
                    usable=min(rest.along, rest.across) >= smallest_mm * PER_MM,
                )
                for rest in rests
            ),
        )

    def _placed(self, pattern: Pattern) -> Iterator[PlacedFace]:
        for number, form, a, c in pattern.blocks:
            block = self.problem.blocks[number]
            for part, da, dc in block.members:
                face = self.faces[part]
                sizes = (face.cut_along_mm, face.cut_across_mm)
                along, across = sizes[::-1] if form else sizes
                yield PlacedFace(
                    face=face,
                    copy=0,
                    along_at_mm=(a + da) / PER_MM,
                    across_at_mm=(c + dc) / PER_MM,
                    along_mm=along,
                    across_mm=across,
                    turned=bool(form),
                )

    def _check(self, plan: Sequence[Pattern]) -> None:
        """Hand the plan to the checker; a turned face is a part of its own there."""
        sizes: dict[tuple[int, int], tuple[int, int, int]] = {}
        placed: list[tuple[int, list[tuple[tuple[int, int], int, int]]]] = []
        for pattern in plan:
            own = []
            for number, form, a, c in pattern.blocks:
                for part, da, dc in self.problem.blocks[number].members:
                    size = size_of(self.faces[part])
                    along, across = size[::-1] if form else size
                    count = sizes.get((part, form), (0, 0, 0))[2]
                    sizes[part, form] = (along, across, count + 1)
                    own.append(((part, form), a + da, c + dc))
            placed.append((pattern.stock, own))
        keys = list(sizes)
        fit = self._fit(plan, placed, keys)
        offered = [
            (k.along, k.across, k.price + 1, k.most) for k in self.problem.stocks
        ]
        matched = [
            (*dict.fromkeys(keys.index((part, 0)) for part, _, _ in block.members), way)
            for block in self.problem.blocks
            if len(block.members) > 1
            for way in (self.faces[block.members[0][0]].run_direction,)
        ]
        check(fit, [sizes[key] for key in keys], offered, matched)
        short = [
            face.name
            for number, face in enumerate(self.faces)
            if sum(sizes.get((number, f), (0, 0, 0))[2] for f in (0, 1)) != face.count
        ]
        if short:
            raise LayoutError(f'the plan does not hold every "{short[0]}".')

    def _fit(
        self,
        plan: Sequence[Pattern],
        placed: Sequence[tuple[int, list[tuple[tuple[int, int], int, int]]]],
        keys: Sequence[tuple[int, int]],
    ) -> Fit:
        sheets: list[tuple[int, tuple[Placement, ...]]] = [
            (stock, tuple((keys.index(key), a, c) for key, a, c in own))
            for stock, own in placed
        ]
        cuts = [
            cut
            for number, pattern in enumerate(plan)
            for cut in sheet_cuts(pattern, self.problem, number)[0]
        ]
        return Fit(
            cost_cents=sum(self.problem.stocks[s].price + 1 for s, _ in sheets),
            least_possible_cents=0,
            sheets=tuple(sheets),
            cuts=tuple(cuts),
        )
