package calc

import "slices"

// Position is a side of the boom.
type Position string

// The sides of a boom, seen in the direction of travel.
const (
	Unplaced Position = ""
	Left     Position = "left"
	Center   Position = "center"
	Right    Position = "right"
)

// positions are where a catch can be. Counts by position come in this order.
var positions = [...]Position{Unplaced, Left, Center, Right}

// sides are the positions that are known.
var sides = positions[1:]

// Words lists the sides.
func (Position) Words() []string { return wordsOf(sides) }

// index is the place of a position in positions; -1 for none of them.
func (p Position) index() int { return slices.Index(positions[:], p) }
