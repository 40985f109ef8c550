package finding_test

import (
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc/finding"
)

// drawn is a place of up to five steps, members and items.
func drawn(t *rapid.T, label string) (p finding.Place) {
	for range rapid.IntRange(0, 5).Draw(t, label) {
		name := rapid.SampledFrom([]string{"a", "b", "list"}).Draw(t, "name")
		if i := rapid.IntRange(-1, 2).Draw(t, "item"); i >= 0 {
			p = p.Item(name, i)
		} else {
			p = p.Member(name)
		}
	}
	return p
}

// TestPlaceIsTakenApartAsItWasPut: what lies behind a front is what was put there, and
// places are equal when they are written alike.
func TestPlaceIsTakenApartAsItWasPut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		front, rest, other := drawn(t, "front"), drawn(t, "rest"), drawn(t, "other")
		whole := rest.Under(front)
		if got, ok := whole.After(front); !ok || !got.Equal(rest) {
			t.Errorf("behind %v of %v is %v, %v", front, whole, got, ok)
		}
		if rest.Equal(other) != (rest.String() == other.String()) {
			t.Errorf("%v and %v", rest, other)
		}
		if _, ok := whole.After(other); ok != (other.IsZero() || whole.String() == other.String() || startsAt(whole.String(), other.String())) {
			t.Errorf("%v within %v: %v", whole, other, ok)
		}
		item := rest.Under(front.Item("list", 7))
		if i, got, ok := item.ItemOf(front.Member("list")); !ok || i != 7 || !got.Equal(rest) {
			t.Errorf("%v is item %d, %v: %v", item, i, got, ok)
		}
		if _, _, ok := front.Member("list").ItemOf(front.Member("list")); ok {
			t.Errorf("the list %v is an item of itself", front.Member("list"))
		}
	})
}

// startsAt tells whether a written place goes on behind another.
func startsAt(whole, front string) bool {
	return len(whole) > len(front) && whole[:len(front)] == front && whole[len(front)] == '.'
}

// TestPlaceOfAnotherList: an item of a list is not one of the list beside it, nor of the same
// member of another item.
func TestPlaceOfAnotherList(t *testing.T) {
	p := finding.Item("plans", 1).Member("warnings")
	in := finding.Item("warnings", 2).Under(finding.Item("plans", 1))
	for _, list := range []finding.Place{
		finding.Member("warnings").Under(finding.Item("plans", 0)), finding.Member("warnings").Under(finding.Item("gears", 1)), finding.Member("plans").Under(finding.Item("plans", 1)),
	} {
		if i, _, ok := in.ItemOf(list); ok {
			t.Errorf("%v is item %d of %v", in, i, list)
		}
	}
	if i, _, ok := in.ItemOf(p); !ok || i != 2 {
		t.Errorf("%v is item %d of %v: %v", in, i, p, ok)
	}
}

// TestPlaceMoves: the first move that fits is made, and what no move fits stays.
func TestPlaceMoves(t *testing.T) {
	measured, machine := finding.Member("measured"), finding.Member("machine")
	moves := []finding.Move{
		{From: measured.Member("speed"), To: finding.Member("speed")}, {From: measured, To: machine},
		{From: finding.Item("gears", 1), To: finding.Member("gear")},
	}
	for _, c := range []struct {
		place finding.Place
		want  string
	}{
		{measured.Member("speed"), "speed"},
		{measured.Member("gear"), "machine.gear"},
		{measured, "machine"},
		{finding.Item("gears", 1).Member("label"), "gear.label"},
		{finding.Item("gears", 2).Member("label"), "gears[2].label"},
		{finding.Member("planning").Item("nozzles", 3).Item("flowChart", 2).Member("pressure"), "planning.nozzles[3].flowChart[2].pressure"},
	} {
		if got := c.place.Moved(moves); got.String() != c.want {
			t.Errorf("%v is moved to %v, want %s", c.place, got, c.want)
		}
	}
	all := append(moves, finding.Move{To: finding.Member("planning")})
	if got := finding.Item("gears", 2).Moved(all); got.String() != "planning.gears[2]" {
		t.Errorf("moved to %v", got)
	}
}

// TestNothingWrongTakesNoMemory: what is asked of every input leaves no garbage.
func TestNothingWrongTakesNoMemory(t *testing.T) {
	if n := testing.AllocsPerRun(100, func() {
		var v finding.Invalid
		v.Positive(1, finding.Member("volume"))
		v.Optional(0, finding.Item("catches", 2))
		v.PositiveFor(2, finding.Member("width"), finding.Given(true, "nozzles"))
		v.PositiveOr(3, finding.Member("groundSpeed"), finding.Member("speedRange"), finding.Member("width"))
		if v = append(v, v.Under(finding.Member("nozzle"))...); v.Err() != nil {
			t.Error(v)
		}
	}); n > 0 {
		t.Errorf("%v allocations", n)
	}
}

// TestUnder: a part's violations are the whole's, in every place that they name.
func TestUnder(t *testing.T) {
	var v finding.Invalid
	v.RequiredBy(finding.Member("nozzles"), finding.Member("width"))
	v.RequiredUnless(finding.Member("size"), finding.Member("ratedFlowRate"), finding.Item("flowChart", 0))
	v.Add(finding.Place{}, "odd")
	got, front := v.Under(finding.Item("shelf", 1)), finding.Item("shelf", 1)
	want := finding.Invalid{
		{Place: front.Member("nozzles"), Code: finding.CodeRequired, Because: front.Member("width")},
		{Place: front.Member("size"), Code: finding.CodeRequired, Instead: []finding.Place{front.Member("ratedFlowRate"), front.Item("flowChart", 0)}},
		{Place: front, Code: "odd"},
	}
	for i := range want {
		if !got[i].Equal(want[i]) || got[i].Equal(v[i]) {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
	if text := got.Error(); text != "calc: shelf[1].nozzles: required; shelf[1].size: required; shelf[1]: odd" {
		t.Error(text)
	}
}
