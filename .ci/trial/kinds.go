package main

// A kind is one kind of sheet. Sound ones are to be READY, and nothing is asked about them.
type kind struct {
	name   string
	weight int
	sound  bool
	want   func(*trial) // what machine, crew and limits are drawn
	truth  func(*trial) // what is wrong with the machine
	entry  func(*trial) // what is written down otherwise than it was measured
}

func kinds() (all []*kind) {
	for _, list := range [][]kind{soundKinds, nozzleKinds, rateKinds, evidenceKinds, slipKinds, rateSlipKinds} {
		for i := range list {
			if list[i].weight == 0 {
				list[i].weight = 2
			}
			all = append(all, &list[i])
		}
	}
	return all
}

// drawKind picks one by its weight.
func drawKind(d draw, from []*kind) *kind {
	sum := 0
	for _, k := range from {
		sum += k.weight
	}
	n := d.IntN(sum)
	for _, k := range from {
		if n -= k.weight; n < 0 {
			return k
		}
	}
	panic("the weights have another sum")
}
