package api

// FollowUpRequest is a catch made after the round, of one nozzle of a drop or of
// the whole drop once more. Together the follow-ups of a drop replace its catch.
type FollowUpRequest struct {
	CatchRequest
	Replaces string `json:"replaces"`
}

var followUpTable = objectOf(append(
	part(func(f *FollowUpRequest) *CatchRequest { return &f.CatchRequest }, dryCatchTable),
	require(label("replaces", func(f *FollowUpRequest) *string { return &f.Replaces }, longestLabel)),
)...)

// followed puts the follow-ups in the place of the catches that they replace. from
// tells, for each catch of the result, where it stands in the sheet; nil when nothing
// was caught again.
//
// A follow-up names exactly one catch (unknown_label), and those of a catch have as
// many nozzles together as it had (incomplete_follow_up): a drop of which a part
// was caught again is not known.
func (o *OutputRequest) followed() (catches []AcceptanceCatchRequest, from []caught, refused *refusal) {
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
			refused.fields = append(refused.fields, FieldError{Pointer: pointer(indexed("Output.FollowUps", i) + ".Replaces"), Code: "unknown_label"})
			continue
		}
		nozzles[placed[i]] += max(f.Nozzles, 1)
	}
	for j, c := range o.Catches {
		if nozzles[j] == 0 {
			catches, from = append(catches, c), append(from, caught{j, false})
			continue
		}
		if nozzles[j] != max(c.Nozzles, 1) {
			refused.fields = append(refused.fields, FieldError{Pointer: pointer(indexed("Output.Catches", j)), Code: "incomplete_follow_up"})
		}
		first := len(catches)
		for i, f := range o.FollowUps {
			if placed[i] != j {
				continue
			}
			if f.Label == "" {
				f.Label = f.Replaces
			}
			again := len(catches) > first
			catches = append(catches, AcceptanceCatchRequest{CatchRequest: f.CatchRequest, Position: c.Position, Bed: c.Bed, samePoint: again})
			from = append(from, caught{i, true})
		}
	}
	if len(refused.fields) > 0 {
		return nil, nil, refused
	}
	return catches, from, nil
}

// caught is where a catch stands in the sheet: among the catches or the follow-ups.
type caught struct {
	index    int
	followUp bool
}

// catchPointer points to where the catch i of the round stands in the sheet.
func (p *sheetParts) catchPointer(i int) string {
	switch {
	case p.from == nil: // nothing was caught again
		return pointer(indexed("Output.Catches", i))
	case p.from[i].followUp:
		return pointer(indexed("Output.FollowUps", p.from[i].index))
	}
	return pointer(indexed("Output.Catches", p.from[i].index))
}
