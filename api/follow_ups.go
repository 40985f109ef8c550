package api

import (
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"

	"wetrun/calc"
	"wetrun/internal/text"
)

// FollowUpRequest is a catch made after the round, of one nozzle of a drop or of
// the whole drop once more. Together the follow-ups of a drop replace its catch.
type FollowUpRequest struct {
	CatchRequest `zero:"volume"`
	Replaces     string `json:"replaces" validate:"required"`
}

// followed puts the follow-ups in the place of the catches that they replace. from
// tells, for each catch of the result, where it stands in the sheet; nil when nothing
// was caught again.
//
// A follow-up names exactly one catch (unknown_label), and those of a catch have as
// many nozzles together as it had (incomplete_follow_up): a drop of which a part
// was caught again is not known. A drop that carries different nozzles is caught again
// whole, in one follow-up, and goes on carrying them: of a part of it nobody knows which
// nozzles it is of.
//
// What has no label of its own is called by its drop, and where several stand in for one
// drop by its number too, so that a crew knows which nozzle a step means.
func (o *OutputRequest) followed(lang text.Language) (catches []AcceptanceCatchRequest, from []caught, refused *refusal) {
	if len(o.FollowUps) == 0 {
		return o.Catches, nil, nil
	}
	nozzles := make([]int, len(o.Catches))
	placed := make([]int, len(o.FollowUps))
	refused = &refusal{kind: invalidRequest}
	for i, f := range o.FollowUps {
		placed[i] = -1
		for j, c := range o.Catches {
			if c.Label == f.Replaces && placed[i] < 0 {
				placed[i] = j
			} else if c.Label == f.Replaces {
				placed[i] = -1
				break
			}
		}
		if placed[i] < 0 {
			refused.fields = append(refused.fields, FieldError{Pointer: pointer(indexed("Output.FollowUps", i) + ".Replaces"), Code: "unknown_label", wording: "unknown_label_catch", args: []any{o.catchLabels()}})
			continue
		}
		nozzles[placed[i]] += max(f.Nozzles, 1)
	}
	for j, c := range o.Catches {
		if nozzles[j] == 0 {
			catches, from = append(catches, c), append(from, caught{j, false, j})
			continue
		}
		mixed := len(c.NozzlesOnDrop) > 0
		if mixed && !o.caughtWhole(placed, j) {
			refused.fields = append(refused.fields, FieldError{
				Pointer: pointer(indexed("Output.Catches", j)), Code: "incomplete_follow_up", wording: "incomplete_follow_up_drop",
			})
		} else if !mixed && nozzles[j] != max(c.Nozzles, 1) {
			refused.fields = append(refused.fields, FieldError{Pointer: pointer(indexed("Output.Catches", j)), Code: "incomplete_follow_up"})
		}
		first, done := len(catches), 0
		for i, f := range o.FollowUps {
			if placed[i] != j {
				continue
			}
			if f.Label == "" {
				f.Label = nameOfFollowUp(lang, f, done, nozzles[j])
			}
			done += max(f.Nozzles, 1)
			if mixed {
				f.Nozzles = c.Nozzles // what says how many they are is nozzlesOnDrop
			}
			again := len(catches) > first
			catches = append(catches, AcceptanceCatchRequest{
				CatchRequest: f.CatchRequest, Position: c.Position, Bed: c.Bed, NozzlesOnDrop: c.NozzlesOnDrop, samePoint: again,
			})
			from = append(from, caught{i, true, j})
		}
	}
	if len(refused.fields) > 0 {
		return nil, nil, refused
	}
	return catches, from, nil
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
	if room := longestLabel - utf8.RuneCountInString(suffix); len(name) > room {
		name = append(name[:room-1], '…')
	}
	return string(name) + suffix
}

// mostLabels is how many labels a refusal lists, and longestListed how long each may be.
const mostLabels, longestListed = 8, 24

// fewLabels lists labels for the words of a refusal, the first few and shortened.
func fewLabels(labels []string) string {
	var list []string
	for i, label := range labels {
		if i == mostLabels {
			list = append(list, "…")
			break
		}
		if r := []rune(label); len(r) > longestListed {
			label = string(r[:longestListed]) + "…"
		}
		list = append(list, label)
	}
	if list == nil {
		return "-"
	}
	return words(list)
}

// catchLabels are the labels of the catches, for the words of a refusal.
func (o *OutputRequest) catchLabels() string {
	var labels []string
	for i := range o.Catches {
		if o.Catches[i].Label != "" && len(labels) <= mostLabels {
			labels = append(labels, o.Catches[i].Label)
		}
	}
	return fewLabels(labels)
}

// caughtWhole tells whether the catch j, of a drop that carries different nozzles, has
// one follow-up, and that of all of them; what leaves nozzles out is of the whole drop.
func (o *OutputRequest) caughtWhole(placed []int, j int) bool {
	count := 0
	for i, f := range o.FollowUps {
		if placed[i] != j {
			continue
		}
		count++
		if f.Nozzles != 0 && f.Nozzles != nozzlesOf(AcceptanceCatchRequest{NozzlesOnDrop: o.Catches[j].NozzlesOnDrop}) {
			return false
		}
	}
	return count == 1
}

// caught is where a catch stands in the sheet: among the catches or the follow-ups, and
// which catch of the round it is or replaces.
type caught struct {
	index    int
	followUp bool
	of       int
}

// catchPointer points to where the catch i of the round stands in the sheet.
func (p *sheetParts) catchPointer(i int) string { return pointer(p.catchPath(i, false)) }

// catchPath is the Go path of the catch i of the round in the sheet, for what is wrong
// with its drop that of the catch of which a follow-up has the nozzles.
func (p *sheetParts) catchPath(i int, ofDrop bool) string {
	switch {
	case p.from == nil: // nothing was caught again
		return indexed("Output.Catches", i)
	case p.from[i].followUp && !ofDrop:
		return indexed("Output.FollowUps", p.from[i].index)
	}
	return indexed("Output.Catches", p.from[i].of)
}

// place moves what is wrong with catches of the round to where the sheet has them.
func (p *sheetParts) place(err error) error {
	var wrong calc.Invalid
	if p.from == nil || !errors.As(err, &wrong) {
		return err
	}
	for i := range wrong {
		if n, member, ok := ofCatch(wrong[i].Field); ok {
			wrong[i].Field = p.catchPath(n, strings.HasPrefix(member, ".NozzlesOnDrop")) + member
		}
	}
	return wrong
}

// ofCatch parts the path of a member of a catch of the round: Output.Catches[2].Jug is
// .Jug of the catch 2.
func ofCatch(path string) (n int, member string, ok bool) {
	rest, ok := strings.CutPrefix(path, "Output.Catches[")
	number, member, _ := strings.Cut(rest, "]")
	n, err := strconv.Atoi(number)
	return n, member, ok && err == nil
}
