package calc

import (
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
)

// An Action is what to do about one catch, or about all (Catch is then -1). That of a whole
// bed or side names it, and its first catch.
type Action struct {
	Catch int
	Do    Remedy
	Bed   int
	Side  certainty.Position
}

// Remedy is a kind of action. Low means dirt, high means wear, and far too high neither.
// Of a drop of several nozzles the sum hides which one is worn, so each is caught before
// a part is bought.
type Remedy string

const (
	CleanAndRecatch Remedy = "clean_and_recatch"
	CheckAndRecatch Remedy = "check_and_recatch" // the reading, its unit, what ran into the jug, the size of the nozzle
	CatchAgain      Remedy = "catch_again"       // above, but too close to say, for the first time
	ReplaceNozzle   Remedy = "replace"
	CatchEachNozzle Remedy = "catch_each_nozzle"
	StillLow        Remedy = "still_low"  // cleaned, and low again: the hose, the check valve, the strainer, the size
	StillHigh       Remedy = "still_high" // replaced, and high again, so it is not wear
	CheckSize       Remedy = "check_size" // of a bed or a side that is off alike

	CheckReference       Remedy = "check_reference"  // all off alike: the gauge, its unit, the size, the jug
	CheckSupply          Remedy = "check_supply"     // all dry: the pump, the valves, the tank, the main strainer
	CatchNewNozzle       Remedy = "catch_new_nozzle" // of the kind, or give its rating: to tell which of two groups is right
	CatchMore            Remedy = "catch_more"       // before a set is bought
	ReplaceAllAndRecatch Remedy = "replace_all_and_recatch"
)

// Words lists every remedy.
func (Remedy) Words() []string {
	return finding.WordsOf([]Remedy{
		CleanAndRecatch, CheckAndRecatch, CatchAgain, ReplaceNozzle, CatchEachNozzle, StillLow, StillHigh, CheckSize,
		CheckReference, CheckSupply, CatchNewNozzle, CatchMore, ReplaceAllAndRecatch,
	})
}

// remedy is what is done about one catch:
//
//	                 for the first time       again
//	below            clean it                 it was below before: not dirt, look at what feeds it
//	far above        check what was read      it was surely above before: not wear
//	surely above     replace                  it was surely above before: not wear
//	above, too close catch it again           replace: nobody measures again twice
//	within           nothing                  nothing
//
// Too little is dirt, whatever it is compared with; too much, which costs money, is only what
// is above the mean of all too, unless it is far above. Of a drop of several nozzles each is
// caught before one is replaced. A nozzle of a drop that was caught as a whole before is
// caught for the first time.
//
// Source: cleaning what is low and replacing what is high, Alberta Agdex 606-1, Crop
// Protection; cleaning, catching again and then replacing, British Columbia Berry Grower,
// 2010, https://content.yudu.com/Library/A1nx70/BritishColumbiaBerry/resources/17.htm . A
// single nozzle is cheap, so what is above twice is replaced though it is too close to say
// (own judgement).
func (r *NozzleAcceptanceResult) remedy(c *AcceptanceCatch, i int, l *lean) Remedy {
	again := c.First != nil
	sameNozzles := again && c.First.nozzles() == c.nozzles()
	switch {
	case l.side == StatusWithin, l.sized, l.side == StatusAbove && r.Catches[i].Status != StatusAbove && !l.gross():
		return ""
	case l.side == StatusBelow && r.Catches[i].FirstStatus == StatusBelow:
		return StillLow
	case l.side == StatusBelow:
		return CleanAndRecatch
	case l.sure && sameNozzles && r.firstSurely(i, StatusAbove):
		return StillHigh
	case l.gross():
		return CheckAndRecatch
	case !l.sure && !again:
		return CatchAgain
	case c.nozzles() > 1:
		return CatchEachNozzle
	}
	return ReplaceNozzle
}
