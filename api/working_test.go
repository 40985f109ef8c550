package api

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/expr-lang/expr"
	"gonum.org/v1/gonum/stat/distuv"

	"wetrun/api/operation"
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/unit"
)

// explainedAnswer is what the working of an answer is held against.
type explainedAnswer struct {
	Methods []string
	Working []struct {
		Method, Member, Formula, Substituted string
		Constants                            []struct {
			Value float64
			From  string
		}
		Result struct {
			Value float64
			Unit  string
		}
	}
}

// TestWorking asks for the working of every example of the document, every published
// case, every sheet of testdata/demo and of valid mutants, and checks each answer. The
// mutants are 60 per operation, or as many as WETRUN_WORKING_MUTANTS says.
func TestWorking(t *testing.T) {
	mutants := 60
	if n, err := strconv.Atoi(os.Getenv("WETRUN_WORKING_MUTANTS")); err == nil {
		mutants = n
	}
	for _, o := range operation.All {
		t.Run(o.Name, func(t *testing.T) {
			t.Parallel()
			seeds := workingSeeds(t, o.Name)
			for _, body := range seeds {
				checkWorking(t, o.Name, body)
			}
			random := rand.New(rand.NewPCG(11, uint64(len(o.Name))))
			for i, checked := 0, 0; checked < mutants && i < 20*mutants && !t.Failed(); i++ {
				if body := mutate(random, seeds[i%len(seeds)]); checkWorking(t, o.Name, body) {
					checked++
				}
			}
		})
	}
}

// workingSeeds are the requests that ought to be answered.
func workingSeeds(t *testing.T, operation string) (seeds []string) {
	for _, example := range requestExamples(t, operation) {
		seeds = append(seeds, encodeJSON(t, example.Value.Value))
	}
	slices.Sort(seeds)
	files, err := filepath.Glob("../testdata/published/" + operation + "/*.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		var c publishedCase
		readJSON(t, file, &c)
		seeds = append(seeds, string(c.Request))
	}
	seeds = append(seeds, workingCases[operation]...)
	if operation == "calibrations" {
		files, _ := filepath.Glob("../testdata/demo/*.json")
		for _, file := range files {
			var sheet json.RawMessage
			readJSON(t, file, &sheet)
			seeds = append(seeds, string(sheet))
		}
	}
	return seeds
}

// checkWorking asks for the working and checks it: the lines give their results, and
// the members they name; every computed number has a line; methods are those of the
// lines; and the answer is otherwise the one without working. False when the request
// is refused.
func checkWorking(t *testing.T, operation, body string) (answered bool) {
	t.Helper()
	var request map[string]any
	if json.Unmarshal([]byte(body), &request) != nil {
		return false
	}
	delete(request, "showWorking")
	plain := post(t, operation, encodeJSON(t, request))
	if plain.Code != http.StatusOK {
		return false
	}
	request["showWorking"] = true
	w := post(t, operation, encodeJSON(t, request))
	var answer, without map[string]any
	var x explainedAnswer
	if json.Unmarshal(w.Body.Bytes(), &answer) != nil || json.Unmarshal(w.Body.Bytes(), &x) != nil || json.Unmarshal(plain.Body.Bytes(), &without) != nil {
		t.Errorf("%s: not JSON: %s", operation, w.Body)
		return true
	}
	before := t.Failed()
	covered := map[string]bool{}
	used := map[string]bool{}
	for _, line := range x.Working {
		checkFormula(t, line.Method, line.Formula, line.Substituted, line.Result.Value)
		for _, c := range line.Constants {
			checkConstant(t, c.Value, c.From)
		}
		used[line.Method] = true
		if line.Member == "" {
			continue
		}
		if covered[line.Member] {
			t.Errorf("%s: two lines for %s", operation, line.Member)
		}
		covered[line.Member] = true
		checkMember(t, answer, line.Member, line.Result.Value, line.Result.Unit)
	}
	for _, id := range x.Methods {
		if !used[id] {
			t.Errorf("%s: methods has %s, no line does", operation, id)
		}
		delete(used, id)
	}
	for id := range used {
		t.Errorf("%s: a line is by %s, methods lacks it", operation, id)
	}
	delete(answer, "working")
	if !jsonEqual(answer, without) {
		t.Errorf("%s: the answer with its working differs in more than that", operation)
	}
	known := map[string]bool{quantityText(calc.SquareRoot, "1"): true} // the law itself
	quantitiesOf(request, "", func(_, q string) { known[q] = true })
	for _, p := range calc.Tolerances() {
		if p.Default {
			known[quantityText(wire.In(p.Value, p.Unit).Value, p.Unit.Symbol())] = true
		}
	}
	for pointer := range covered {
		if m, err := follow(answer, strings.TrimPrefix(pointer, "#")); err == nil {
			quantitiesOf(map[string]any{"x": m}, "", func(_, q string) { known[q] = true })
		}
	}
	quantitiesOf(answer, "#", func(pointer, q string) {
		if !covered[pointer] && !known[q] && !unexplained(pointer) {
			t.Errorf("%s: %s is %s, and no line computes it", operation, pointer, q)
		}
	})
	if t.Failed() && !before {
		t.Logf("the request: %s\nthe answer: %s", encodeJSON(t, request), w.Body)
	}
	return true
}

// notExplained are numbers of answers that no line computes, as a pattern of their
// pointers, with the reason.
var notExplained = map[string]string{
	`/rated(FlowRate|Pressure)$`:     "of a size; GET /v1/nozzle-sizes lists it with its source",
	`/(newPulses|pulseSetting)/per$`: "one unit, or that of the request",
	`/wouldAgree$`:                   "what was entered, by the slip that is named; nothing rests on it",
	`^#/nextSteps/\d+/aim$`:          "5 % below the label's maximum, as its words say",
	`/confidence$`:                   "a figure of the document",
	`^#/(spacings/\d+|bestSpacing)/coefficientOfVariation$`: "as that of boom, which has its working when it is asked for as nozzleSpacing; a hundred spacings of two hundred cups would be millions of terms",
}

func unexplained(pointer string) bool {
	for pattern := range notExplained {
		if regexp.MustCompile(pattern).MatchString(pointer) {
			return true
		}
	}
	return false
}

// quantitiesOf visits every quantity and every bare number with a fraction.
func quantitiesOf(v any, at string, visit func(pointer, quantity string)) {
	switch x := v.(type) {
	case map[string]any:
		if amount, money := x["amount"].(float64); money {
			visit(at, quantityText(amount, "1"))
			return
		}
		if symbol, ok := x["unit"].(string); ok && len(x) == 2 {
			if value, ok := x["value"].(float64); ok {
				visit(at, quantityText(value, symbol))
				return
			}
		}
		for name, y := range x {
			quantitiesOf(y, at+"/"+name, visit)
		}
	case []any:
		for i, y := range x {
			quantitiesOf(y, at+"/"+strconv.Itoa(i), visit)
		}
	case float64:
		if x != math.Trunc(x) {
			visit(at, quantityText(x, "1"))
		}
	}
}

// quantityText is a quantity to six digits; a share is the same in %.
func quantityText(value float64, symbol string) string {
	if symbol == "%" {
		value, symbol = value/100, "1"
	}
	return string(wire.AppendNumber(nil, value)) + " " + symbol
}

// checkFormula evaluates the numbers of a line by an evaluator of its own.
func checkFormula(t *testing.T, method, formula, substituted string, result float64) {
	t.Helper()
	left, right, ok := strings.Cut(substituted, " = ")
	if l, _, _ := strings.Cut(formula, " = "); !ok || l != left {
		t.Errorf("%s: %q and %q are of different things", method, formula, substituted)
	}
	if got := evaluated(t, right); !agrees(got, result) {
		t.Errorf("%s: %s is %v, the line says %v", method, substituted, got, result)
	}
}

// agrees compares to the six digits of an answer. A difference below 1e-9 of its
// operands, which may be percentages, counts as 0.
func agrees(got, printed float64) bool {
	if printed == 0 {
		return math.Abs(got) < 1e-6
	}
	digit := math.Pow(10, math.Floor(math.Log10(math.Abs(printed)))-wire.SignificantDigits+1)
	return math.Abs(got-printed) <= 0.5*digit+1e-8*math.Abs(printed)+1e-11 // what is left of percentages near 100
}

// evaluators compute the functions of formulas a second time, by other ways than those
// of the lines where there are some.
var evaluators = map[string]func(x []float64) float64{
	"abs": one(math.Abs), "sqrt": one(math.Sqrt), "ln": one(math.Log), "exp": one(math.Exp),
	"min": extreme(math.Min), "max": extreme(math.Max),
	"normal_quantile":         func(x []float64) float64 { return math.Sqrt2 * math.Erfinv(2*x[0]-1) },
	"normal_cdf":              func(x []float64) float64 { return math.Erfc(-x[0]/math.Sqrt2) / 2 },
	"t_quantile":              func(x []float64) float64 { return distuv.StudentsT{Sigma: 1, Nu: x[1]}.Quantile(x[0]) },
	"t_cdf":                   func(x []float64) float64 { return distuv.StudentsT{Sigma: 1, Nu: x[1]}.CDF(x[0]) },
	"uniform_normal_cdf":      func(x []float64) float64 { return uniformSum(x[0], x[1], x[2], 12, distuv.UnitNormal.CDF) },
	"uniform_normal_quantile": func(x []float64) float64 { return uniformQuantile(x[0], x[1], x[2], 12, distuv.UnitNormal.CDF) },
	"uniform_t_cdf": func(x []float64) float64 {
		return uniformSum(x[0], x[1], x[2], 1e9, distuv.StudentsT{Sigma: 1, Nu: x[3]}.CDF)
	},
	"uniform_t_quantile": func(x []float64) float64 {
		return uniformQuantile(x[0], x[1], x[2], 1e9, distuv.StudentsT{Sigma: 1, Nu: x[3]}.CDF)
	},
	"within_both":         withinBoth,
	"beta_quantile":       betaQuantile,
	"beta_cdf":            func(x []float64) float64 { return distuv.Beta{Alpha: x[1], Beta: x[2]}.CDF(min(x[0], 1)) },
	"beta_binomial_above": betaBinomialAbove,
	"most_outside":        mostOutside,
}

// expressionOptions let the evaluator call the functions of formulas, with as many
// arguments as they take.
var expressionOptions = func() (all []expr.Option) {
	for name, f := range working.Functions {
		all = append(all, expr.Function(name, func(args ...any) (any, error) {
			if f.Arguments != 0 && len(args) != f.Arguments {
				return nil, fmt.Errorf("%s of %d numbers", name, len(args))
			}
			x := make([]float64, len(args))
			for i := range args {
				x[i] = numeric(args[i])
			}
			return evaluators[name](x), nil
		}))
	}
	return all
}()

func one(f func(float64) float64) func([]float64) float64 {
	return func(x []float64) float64 { return f(x[0]) }
}

func extreme(f func(a, b float64) float64) func([]float64) float64 {
	return func(x []float64) float64 {
		most := x[0]
		for _, v := range x[1:] {
			most = f(most, v)
		}
		return most
	}
}

// uniformSum sums by Simpson's rule what is below x of an error within a, either way, and of
// s times another, which goes no farther than so many s.
func uniformSum(x, a, s, farthest float64, below func(float64) float64) float64 {
	switch {
	case a == 0:
		return below(x / s)
	case s == 0:
		return max(0, min((x+a)/(2*a), 1))
	}
	low, high := max(-a, x-farthest*s), min(a, x+farthest*s) // beyond them it is all or nothing
	if low >= high {
		return map[bool]float64{true: 1, false: 0}[x > a]
	}
	n := 2 * int(min(max(200, 25*(high-low)/s), 2000)) // steps of 0.02 s at most, where the sum is not that wide
	sum := below((x-low)/s) + below((x-high)/s)
	for i := 1; i < n; i++ {
		sum += below((x-low-(high-low)*float64(i)/float64(n))/s) * float64(2+2*(i%2))
	}
	return (sum*(high-low)/float64(3*n) + (low + a)) / (2 * a)
}

// uniformQuantile inverts uniformSum by false position, halving what one end stands for where
// it stays (the Illinois rule).
func uniformQuantile(p, a, s, farthest float64, below func(float64) float64) float64 {
	low, high := 0.0, a+20*s
	under, over := uniformSum(low, a, s, farthest, below)-p, uniformSum(high, a, s, farthest, below)-p
	for range 100 {
		x := high - over*(high-low)/(over-under)
		off := uniformSum(x, a, s, farthest, below) - p
		switch {
		case math.Abs(off) < 1e-12:
			return x
		case off < 0:
			low, under, over = x, off, over/2
		default:
			high, over, under = x, off, under/2
		}
	}
	return math.NaN() // agrees with no line
}

// withinBoth sums by Simpson's rule over the one of two normal errors what the other leaves.
func withinBoth(x []float64) float64 {
	z := func(p float64) float64 { return max(-9, min(distuv.UnitNormal.Quantile(p), 9)) }
	low, high, least, most, r := z(x[0]), -z(x[1]), z(x[2]), -z(x[3]), x[4]
	if low >= high || least >= most {
		return 0
	}
	const n = 20_000
	sum, rest := 0.0, math.Sqrt(1-r*r)
	for i := range n + 1 {
		at := low + (high-low)*float64(i)/n
		weight := float64(2 + 2*(i%2))
		if i == 0 || i == n {
			weight = 1
		}
		sum += weight * distuv.UnitNormal.Prob(at) * (distuv.UnitNormal.CDF((most-r*at)/rest) - distuv.UnitNormal.CDF((least-r*at)/rest))
	}
	return sum * (high - low) / (3 * n)
}

// betaQuantile inverts the tail sum of the binomial distribution by halving: the
// chance of at least a successes of a + b - 1 is p there.
func betaQuantile(x []float64) float64 {
	p, a, b := x[0], x[1], x[2]
	if a == 0 || b == 0 {
		return map[bool]float64{true: 0, false: 1}[a == 0]
	}
	n, low, high := a+b-1, 0.0, 1.0
	for range 200 {
		middle, tail := (low+high)/2, 0.0
		for k := a; k <= n; k++ {
			tail += math.Exp(logChoose(n, k) + k*math.Log(middle) + (n-k)*math.Log1p(-middle))
		}
		if tail < p {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// mostOutside counts up by the hypergeometric distribution.
func mostOutside(a []float64) float64 {
	x, n, all := a[0], a[1], a[2]
	for marked := x; ; marked++ {
		tail := 0.0
		for k := max(0, n-(all-marked-1)); k <= x; k++ {
			tail += math.Exp(logChoose(marked+1, k) + logChoose(all-marked-1, n-k) - logChoose(all, n))
		}
		if marked == all-n+x || tail <= 0.025*(1+1e-9) {
			return marked
		}
	}
}

// betaBinomialAbove adds up the beta-binomial distribution from the top.
func betaBinomialAbove(x []float64) (sum float64) {
	logBeta := func(a, b float64) float64 { return logGamma(a) + logGamma(b) - logGamma(a+b) }
	n, a, b := x[1], x[2], x[3]
	for k := max(x[0]+1, 0); k <= n; k++ {
		sum += math.Exp(logChoose(n, k) + logBeta(k+a, n-k+b) - logBeta(a, b))
	}
	return sum
}

func logChoose(n, k float64) float64 { return logGamma(n+1) - logGamma(k+1) - logGamma(n-k+1) }

func logGamma(x float64) float64 { l, _ := math.Lgamma(x); return l }

func numeric(v any) float64 {
	switch x := v.(type) {
	case int:
		return float64(x)
	case float64:
		return x
	}
	panic(fmt.Sprintf("%v is no number", v))
}

// whole are the whole numbers of an expression: the evaluator takes them for integers.
var whole = regexp.MustCompile(`(^|[ (,])(\d+)($|[ ),])`)

func evaluated(t *testing.T, expression string) float64 {
	t.Helper()
	for range 2 { // matches share the character between them
		expression = whole.ReplaceAllString(expression, "${1}${2}.0${3}")
	}
	program, err := expr.Compile(expression, expressionOptions...)
	if err != nil {
		t.Errorf("%s: %v", expression, err)
		return math.NaN()
	}
	v, err := expr.Run(program, nil)
	if err != nil {
		t.Errorf("%s: %v", expression, err)
		return math.NaN()
	}
	return numeric(v)
}

// checkConstant evaluates the units that a constant is from by their exact factors.
func checkConstant(t *testing.T, value float64, from string) {
	t.Helper()
	left, right, ok := strings.Cut(from, " = ")
	words := strings.SplitN(right, " ", 2)
	if !ok || len(words) != 2 || unit.Lookup(words[1]) == unit.None {
		t.Errorf("a constant from %q", from)
		return
	}
	factors := regexp.MustCompile(`1 ([^ ()*]+)`).ReplaceAllStringFunc(left, func(s string) string {
		u := unit.Lookup(strings.TrimPrefix(s, "1 "))
		if u == unit.None {
			return s
		}
		info := u.Info()
		return fmt.Sprintf("(%v / %v)", info.Numerator, info.Denominator)
	})
	want := evaluated(t, factors) / unit.Lookup(words[1]).Factor()
	if told, err := strconv.ParseFloat(words[0], 64); err != nil || told != value || math.Abs(want-value) > 1e-8*want {
		t.Errorf("%q: the units give %v, the constant is %v", from, want, value)
	}
}
