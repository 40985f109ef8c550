package working

import "testing"

// TestFormulasAreRead refuses what is no formula, rather than to write a line of it.
func TestFormulasAreRead(t *testing.T) {
	for _, wrong := range []string{"sin(x)", "sqrt(x, y)", "t_quantile(p)", "a + * b", "a b"} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s was read as a formula", wrong)
				}
			}()
			readFormula(wrong)
		}()
	}
}
