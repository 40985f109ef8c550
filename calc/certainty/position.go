package certainty

import (
	"slices"

	"wetrun/calc/finding"
)

// Position is a side of the boom: where a catch was made, and where a sample goes on.
type Position string

// The sides of a boom, seen in the direction of travel.
const (
	Unplaced Position = ""
	Left     Position = "left"
	Center   Position = "center"
	Right    Position = "right"
)

// Positions are where a catch can be. Counts by position come in this order.
var Positions = [...]Position{Unplaced, Left, Center, Right}

// Sides are the positions that are known.
var Sides = Positions[1:]

// Words lists the sides.
func (Position) Words() []string { return finding.WordsOf(Sides) }

// Index is the place of a position in positions; -1 for none of them.
func (p Position) Index() int { return slices.Index(Positions[:], p) }
