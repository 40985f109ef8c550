package operation

import (
	"unicode/utf8"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/internal/text"
)

// FollowUpRequest is a catch made after the round, of one nozzle of a drop or of
// the whole drop once more. Together the follow-ups of a drop replace its catch.
type FollowUpRequest struct {
	CatchRequest `zero:"volume"`
	Replaces     string `json:"replaces" validate:"required"`
}

// withFollowUps is the round with the follow-ups in the place of the catches that they
// replace, each with the catch that it stands in for. sources tells of each catch of it what it was read from; nil when nothing was
// caught again.
//
// A follow-up names exactly one catch (unknown_label), and those of a catch have as
// many nozzles together as it had (incomplete_follow_up): a drop of which a part
// was caught again is not known. A drop that carries different nozzles is caught again
// whole, in one follow-up, and goes on carrying them: of a part of it nobody knows which
// nozzles it is of.
//
// What has no label of its own is called by its drop, and where several stand in for one
// drop by its number too, so that a crew knows which nozzle a step means.
func (o *OutputRequest) withFollowUps(lang text.Language) (catches []AcceptanceCatchRequest, sources []catchOrigin, refused *wire.Refusal) {
	if len(o.FollowUps) == 0 {
		return o.Catches, nil, nil
	}
	recaught := make([]int, len(o.Catches))   // how many nozzles of each catch were caught again
	replaced := make([]int, len(o.FollowUps)) // the catch that each follow-up replaces; -1 for none
	refused = &wire.Refusal{Kind: wire.InvalidRequest}
	labelled := map[string]int{} // the catch of each label; -1 for several
	for j := range o.Catches {
		label := o.Catches[j].Label
		if _, twice := labelled[label]; twice || label == "" {
			labelled[label] = -1
		} else {
			labelled[label] = j
		}
	}
	for i := range o.FollowUps {
		f := &o.FollowUps[i]
		j, known := labelled[f.Replaces]
		if replaced[i] = j; !known || j < 0 {
			replaced[i] = -1
			e := wire.FieldError{Pointer: wire.Pointer(finding.Item("followUps", i).Member("replaces").Under(output)), Code: calc.CodeUnknownLabel}
			listLabels(&e, "unknown_label_catch", o.Catches, func(c *AcceptanceCatchRequest) string { return c.Label })
			refused.Fields = append(refused.Fields, e)
			continue
		}
		recaught[replaced[i]] += max(f.Nozzles, 1)
	}
	for j, c := range o.Catches {
		if recaught[j] == 0 {
			catches, sources = append(catches, c), append(sources, catchOrigin{j, -1})
			continue
		}
		mixed := len(c.NozzlesOnDrop) > 0
		if mixed && !o.caughtWhole(replaced, j) {
			refused.Fields = append(refused.Fields, wire.FieldError{
				Pointer: wire.Pointer(outputCatch(j)), Code: "incomplete_follow_up", Wording: "incomplete_follow_up_drop",
			})
		} else if !mixed && recaught[j] != max(c.Nozzles, 1) {
			refused.Fields = append(refused.Fields, wire.FieldError{Pointer: wire.Pointer(outputCatch(j)), Code: "incomplete_follow_up"})
		}
		first, done := len(catches), 0 // the place of the first follow-up, and the nozzles of those before
		for i := range o.FollowUps {
			if replaced[i] != j {
				continue
			}
			f := o.FollowUps[i]
			if f.Label == "" {
				f.Label = nameOfFollowUp(lang, f, done, recaught[j])
			}
			done += max(f.Nozzles, 1)
			if mixed {
				f.Nozzles = c.Nozzles // what says how many they are is nozzlesOnDrop
			}
			catches = append(catches, AcceptanceCatchRequest{
				CatchRequest: f.CatchRequest, Position: c.Position, Bed: c.Bed, NozzlesOnDrop: c.NozzlesOnDrop,
				samePoint: len(catches) > first, first: &o.Catches[j],
			})
			sources = append(sources, catchOrigin{j, i})
		}
	}
	if len(refused.Fields) > 0 {
		return nil, nil, refused
	}
	return catches, sources, nil
}

// nameOfFollowUp is the name of a follow-up that has none, after done nozzles of its drop
// that has all.
func nameOfFollowUp(lang text.Language, f FollowUpRequest, done, all int) string {
	n := max(f.Nozzles, 1)
	if n == all {
		return f.Replaces
	}
	suffix := text.Of(lang, "follow_up.nozzle", done+1)
	if n > 1 {
		suffix = text.Of(lang, "follow_up.nozzles", done+1, done+n)
	}
	// A label of the answer is no longer than one of a request.
	name := []rune(f.Replaces)
	if room := wire.LongestLabel - utf8.RuneCountInString(suffix); len(name) > room {
		name = append(name[:room-1], '…')
	}
	return string(name) + suffix
}

// listLabels says in a refusal, by the text wording, which labels items have. Where none has
// one, the text of the code stays.
func listLabels[T any](refused *wire.FieldError, wording string, items []T, labelOf func(*T) string) {
	const most, longest = 8, 24
	var list []string
	for i := range items {
		label := []rune(labelOf(&items[i]))
		if len(label) == 0 {
			continue
		}
		if len(list) == most {
			list = append(list, "…")
			break
		}
		if len(label) > longest {
			label = append(label[:longest], '…')
		}
		list = append(list, string(label))
	}
	if list != nil {
		refused.Wording, refused.Args = wording, []any{wire.Enumeration(list)}
	}
}

// caughtWhole tells whether the catch j, of a drop that carries different nozzles, has
// one follow-up, and that of all of them; what leaves nozzles out is of the whole drop.
func (o *OutputRequest) caughtWhole(replaced []int, j int) bool {
	count := 0
	for i, f := range o.FollowUps {
		if replaced[i] != j {
			continue
		}
		count++
		if f.Nozzles != 0 && f.Nozzles != nozzlesOf(AcceptanceCatchRequest{NozzlesOnDrop: o.Catches[j].NozzlesOnDrop}) {
			return false
		}
	}
	return count == 1
}
