package involute_test

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/involute"
)

// row is one line of a table in testdata/published.
type row struct {
	id, quantity       string
	in                 map[string]float64
	printed, computed  string
	kind, source, mark string
}

// published reads every row of the published tables whose quantity begins with
// one of the prefixes.
func published(t *testing.T, prefixes ...string) []row {
	t.Helper()
	names, err := filepath.Glob(filepath.Join("..", "testdata", "published", "*.txt"))
	require.NoError(t, err)
	require.NotEmpty(t, names)
	var rows []row
	for _, name := range names {
		f, err := os.Open(name)
		require.NoError(t, err)
		defer f.Close()
		for s := bufio.NewScanner(f); s.Scan(); {
			if strings.HasPrefix(s.Text(), "#") {
				continue
			}
			p := strings.Split(s.Text()+" ", "|")
			require.Len(t, p, 8, "%s: %s", name, s.Text())
			for i := range p {
				p[i] = strings.TrimSpace(p[i])
			}
			r := row{p[0], p[1], map[string]float64{}, p[3], p[4], p[5], p[6], p[7]}
			require.NotEmpty(t, r.source, "%s has no source", r.id)
			for _, kv := range strings.Fields(p[2]) {
				k, v, _ := strings.Cut(kv, "=")
				r.in[k], err = strconv.ParseFloat(v, 64)
				require.NoError(t, err, "%s: %s", name, s.Text())
			}
			for _, prefix := range prefixes {
				if strings.HasPrefix(r.quantity, prefix) {
					rows = append(rows, r)
				}
			}
		}
	}
	return rows
}

// compare holds got against the printed figure, to half a unit of its last
// place, and against the recomputed one to 1e-9 of it. A figure that is marked as
// rounded on the way or misprinted must differ from the print.
func (r row) compare(t *testing.T, got float64) {
	t.Helper()
	if r.printed == "" && r.computed == "" {
		t.Errorf("%s has no figure", r.id)
	}
	if r.computed != "" {
		want, err := strconv.ParseFloat(r.computed, 64)
		require.NoError(t, err)
		if !(math.Abs(got-want) <= 1e-9*math.Abs(want)) {
			t.Errorf("%s %s%v = %.12g, recomputed %s", r.id, r.quantity, r.in, got, r.computed)
		}
	}
	if r.printed == "" {
		return
	}
	want, err := strconv.ParseFloat(r.printed, 64)
	require.NoError(t, err)
	_, places, _ := strings.Cut(r.printed, ".")
	half := 0.5 * math.Pow10(-len(places))
	agrees := math.Abs(got-want) <= half*(1+1e-9)
	if r.mark == "" && !agrees {
		t.Errorf("%s %s%v = %.12g, %s prints %s", r.id, r.quantity, r.in, got, r.source, r.printed)
	}
	if r.mark != "" && agrees {
		t.Errorf("%s %s%v = %.12g agrees with the print %s, which is marked as %s", r.id, r.quantity, r.in, got, r.printed, r.mark)
	}
}

func deg(d float64) float64   { return d * math.Pi / 180 }
func inDeg(r float64) float64 { return r * 180 / math.Pi }

// toothOf returns the row's tooth: rack A, full depth.
func toothOf(t *testing.T, in map[string]float64) *involute.Tooth {
	t.Helper()
	rack, _, err := involute.StandardRack('A', deg(in["alpha"]))
	require.NoError(t, err)
	return newTooth(t, rack, in["m"], int(in["z"]), in["x"])
}

func newTooth(t *testing.T, rack involute.Rack, m float64, z int, x float64) *involute.Tooth {
	t.Helper()
	tooth, err := involute.NewTooth(involute.ToothSpec{
		Module: m, Teeth: z, Rack: rack, Shift: x, TipRadius: m * (float64(z)/2 + rack.Addendum + x),
	})
	require.NoError(t, err)
	return tooth
}

// gaugeTooth returns a tooth for quantities that the root does not touch: a
// shallow rack undercuts none of them, and the tip stands just below the point.
func gaugeTooth(t *testing.T, in map[string]float64) *involute.Tooth {
	t.Helper()
	s := involute.ToothSpec{
		Module: in["m"], Teeth: int(in["z"]), Shift: in["x"],
		Rack: involute.Rack{PressureAngle: deg(in["alpha"]), Addendum: 1, Dedendum: 0.4 + math.Max(0, in["x"])},
	}
	s.TipRadius = s.PointRadius() * (1 - 1e-9)
	tooth, err := involute.NewTooth(s)
	require.NoError(t, err)
	return tooth
}

// spaceOf returns the row's space. The widths of the table in inches are given
// instead of a shift.
func spaceOf(t *testing.T, in map[string]float64) *involute.Space {
	t.Helper()
	rack, _, err := involute.StandardRack('A', deg(in["alpha"]))
	require.NoError(t, err)
	s := involute.SpaceSpec{Module: in["m"], Teeth: int(in["z"]), Rack: rack, Shift: in["x"]}
	if p, ok := in["dp_inch"]; ok {
		s.Module = 1 / p
		s.Widening = in["width"] - math.Pi/2*s.Module
	}
	s.Corner = 0.01 * s.Module
	r := s.Module * in["z"] / 2
	s.TipRadius = math.Max(r*math.Cos(rack.PressureAngle)*1.0001, r-s.Module*(1-s.Shift))
	if da, ok := in["da"]; ok {
		s.TipRadius = da / 2
	}
	space, err := involute.NewSpace(s)
	require.NoError(t, err)
	return space
}

// quantities computes each quantity of the tables by this package.
var quantities = map[string]func(t *testing.T, in map[string]float64) float64{
	"inv": func(t *testing.T, in map[string]float64) float64 { return involute.Inv(deg(in["alpha"])) },
	"inverse.rad": func(t *testing.T, in map[string]float64) float64 {
		a, err := involute.InvInverse(in["inv"])
		require.NoError(t, err)
		return a
	},
	"inverse.deg": func(t *testing.T, in map[string]float64) float64 {
		a, err := involute.InvInverse(in["inv"])
		require.NoError(t, err)
		return inDeg(a)
	},
	// The involute that covers a whole turn of the base circle: its string is
	// half the base circle long where two such teeth meet.
	"one_tooth.angle_minutes": func(t *testing.T, in map[string]float64) float64 {
		return 60 * inDeg(involute.PressureAngle(in["rb"], oneTooth(in["rb"])))
	},
	"one_tooth.pitch": func(t *testing.T, in map[string]float64) float64 {
		return 2 * math.Pi * oneTooth(in["rb"])
	},
	"one_tooth.diametral_pitch": func(t *testing.T, in map[string]float64) float64 {
		return 1 / (2 * oneTooth(in["rb"]))
	},
	"rack.smallest_teeth": func(t *testing.T, in map[string]float64) float64 {
		return involute.Rack{PressureAngle: deg(in["alpha"]), Addendum: 1, Dedendum: 1}.SmallestTeeth(0)
	},
	"rack.smallest_shift": func(t *testing.T, in map[string]float64) float64 {
		return involute.Rack{PressureAngle: deg(in["alpha"]), Addendum: 1, Dedendum: 1}.SmallestShift(int(in["z"]), 0)
	},
	"rack.straight_dedendum.A": straightDedendum('A'),
	"rack.straight_dedendum.B": straightDedendum('B'),
	"rack.straight_dedendum.C": straightDedendum('C'),
	"rack.straight_dedendum.D": straightDedendum('D'),
	"rack.full_round.D": func(t *testing.T, in map[string]float64) float64 {
		r, _, err := involute.StandardRack('D', deg(in["alpha"]))
		require.NoError(t, err)
		return r.FullRound()
	},
	"tooth.reference_diameter": func(t *testing.T, in map[string]float64) float64 { return 2 * toothOf(t, in).ReferenceRadius },
	"tooth.base_diameter":      func(t *testing.T, in map[string]float64) float64 { return 2 * toothOf(t, in).BaseRadius },
	"tooth.root_diameter":      func(t *testing.T, in map[string]float64) float64 { return 2 * toothOf(t, in).RootRadius },
	"tooth.form_diameter":      func(t *testing.T, in map[string]float64) float64 { return 2 * toothOf(t, in).FormRadius },
	"tooth.thickness":          func(t *testing.T, in map[string]float64) float64 { return toothOf(t, in).Thickness },
	"tooth.tip_thickness": func(t *testing.T, in map[string]float64) float64 {
		tooth := toothOf(t, in)
		return tooth.ThicknessAt(tooth.TipRadius)
	},
	"tooth.shift_of_land": func(t *testing.T, in map[string]float64) float64 {
		return shiftOfLand(deg(in["alpha"]), int(in["z"]), in["land"])
	},
	"tooth.span": func(t *testing.T, in map[string]float64) float64 { return toothOf(t, in).Span(int(in["k"])) },
	"tooth.fillet_radius": func(t *testing.T, in map[string]float64) float64 {
		x, y, _, _, _, _ := toothOf(t, in).Fillet(1).At(deg(in["theta"]))
		return math.Hypot(x, y)
	},
	"tooth.fillet_half": func(t *testing.T, in map[string]float64) float64 {
		x, y, _, _, _, _ := toothOf(t, in).Fillet(1).At(deg(in["theta"]))
		return -math.Atan2(y, x)
	},
	"tooth.half_space_at_base": func(t *testing.T, in map[string]float64) float64 {
		tooth := gaugeTooth(t, in)
		return math.Pi/in["z"] - tooth.HalfAngle(tooth.BaseRadius)
	},
	"tooth.ideal_pin": func(t *testing.T, in map[string]float64) float64 { return idealPin(gaugeTooth(t, in)) },
	"tooth.ideal_pin_phi": func(t *testing.T, in map[string]float64) float64 {
		tooth := gaugeTooth(t, in)
		return math.Acos(tooth.BaseRadius / overPins(t, tooth, idealPin(tooth)).Centre)
	},
	"tooth.pin_inv": func(t *testing.T, in map[string]float64) float64 {
		tooth := gaugeTooth(t, in)
		return involute.Inv(involute.PressureAngle(tooth.BaseRadius, overPins(t, tooth, in["dp"]).Centre))
	},
	"tooth.pin_phi_deg": func(t *testing.T, in map[string]float64) float64 {
		tooth := gaugeTooth(t, in)
		return inDeg(involute.PressureAngle(tooth.BaseRadius, overPins(t, tooth, in["dp"]).Centre))
	},
	"tooth.pins": func(t *testing.T, in map[string]float64) float64 {
		return overPins(t, gaugeTooth(t, in), in["dp"]).Dimension
	},
	"space.reference_diameter": func(t *testing.T, in map[string]float64) float64 { return 2 * spaceOf(t, in).ReferenceRadius },
	"space.base_diameter":      func(t *testing.T, in map[string]float64) float64 { return 2 * spaceOf(t, in).BaseRadius },
	"space.half_at_base": func(t *testing.T, in map[string]float64) float64 {
		space := spaceOf(t, in)
		return space.HalfAngle(space.BaseRadius)
	},
	"space.tip_thickness": func(t *testing.T, in map[string]float64) float64 {
		space := spaceOf(t, in)
		return space.ToothThicknessAt(space.TipRadius)
	},
	"space.ideal_pin": func(t *testing.T, in map[string]float64) float64 {
		space := spaceOf(t, in)
		return space.IdealPin(space.ReferenceRadius + in["x"]*in["m"])
	},
	"space.ideal_pin_phi": func(t *testing.T, in map[string]float64) float64 {
		space := spaceOf(t, in)
		return involute.PressureAngle(space.BaseRadius, betweenPins(t, space, space.IdealPin(space.ReferenceRadius)).Centre)
	},
	"space.pin_inv": func(t *testing.T, in map[string]float64) float64 {
		space := spaceOf(t, in)
		return involute.Inv(involute.PressureAngle(space.BaseRadius, betweenPins(t, space, in["dp"]).Centre))
	},
	"space.pin_phi_deg": func(t *testing.T, in map[string]float64) float64 {
		space := spaceOf(t, in)
		return inDeg(involute.PressureAngle(space.BaseRadius, betweenPins(t, space, in["dp"]).Centre))
	},
	"space.pins": func(t *testing.T, in map[string]float64) float64 {
		return betweenPins(t, spaceOf(t, in), in["dp"]).Dimension
	},
	"space.pin_contact": func(t *testing.T, in map[string]float64) float64 {
		return betweenPins(t, spaceOf(t, in), in["dp"]).Contact
	},
	"space.pin_contact_deg": func(t *testing.T, in map[string]float64) float64 {
		space := spaceOf(t, in)
		return inDeg(involute.PressureAngle(space.BaseRadius, betweenPins(t, space, in["dp"]).Contact))
	},
	"space.least_teeth": func(t *testing.T, in map[string]float64) float64 {
		rack, _, err := involute.StandardRack('A', deg(in["alpha"]))
		require.NoError(t, err)
		for z := 200; ; z-- {
			_, err := involute.NewSpace(involute.SpaceSpec{Module: 1, Teeth: z, Rack: rack, Corner: 0.1, TipRadius: float64(z)/2 - 1})
			if err != nil {
				var d *involute.DomainError
				require.ErrorAs(t, err, &d)
				require.Equal(t, involute.InsideBase, d.Cause)
				return float64(z + 1)
			}
		}
	},
}

func straightDedendum(kind byte) func(*testing.T, map[string]float64) float64 {
	return func(t *testing.T, in map[string]float64) float64 {
		r, rule, err := involute.StandardRack(kind, deg(in["alpha"]))
		require.NoError(t, err)
		require.Equal(t, involute.RadiusOfType, rule)
		return r.StraightDedendum()
	}
}

// oneTooth returns the radius at which the string is half the base circle long.
func oneTooth(rb float64) float64 {
	lo, hi := rb, 10*rb
	for range 100 {
		if mid := (lo + hi) / 2; involute.StringLength(rb, mid) < math.Pi*rb {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// shiftOfLand returns the profile shift at which a full-depth tooth of module 1
// has the land at its tip.
func shiftOfLand(alpha float64, z int, land float64) float64 {
	excess := func(x float64) float64 {
		s := involute.ToothSpec{Module: 1, Teeth: z, Shift: x, Rack: involute.Rack{PressureAngle: alpha, Addendum: 1, Dedendum: 0.1}}
		tip := float64(z)/2 + 1 + x
		if land == 0 {
			return s.PointRadius() - tip
		}
		s.TipRadius = math.Min(tip, s.PointRadius()*(1-1e-9))
		tooth, err := involute.NewTooth(s)
		if err != nil {
			return -1
		}
		return tooth.ThicknessAt(tip) - land
	}
	lo, hi := 0.0, 2.5
	for range 60 {
		if mid := (lo + hi) / 2; excess(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

func idealPin(t *involute.Tooth) float64 {
	return t.IdealPin(t.ReferenceRadius + t.Spec.Shift*t.Spec.Module)
}

func overPins(t *testing.T, tooth *involute.Tooth, dp float64) involute.Pins {
	t.Helper()
	p, err := tooth.OverPins(dp)
	require.NoError(t, err)
	return p
}

func betweenPins(t *testing.T, space *involute.Space, dp float64) involute.Pins {
	t.Helper()
	p, err := space.BetweenPins(dp)
	require.NoError(t, err)
	return p
}

func TestPublishedFigures(t *testing.T) {
	rows := published(t, "inv", "one_tooth.", "rack.", "tooth.", "space.")
	count := map[string]int{}
	for _, r := range rows {
		f, ok := quantities[r.quantity]
		if !ok {
			t.Errorf("%s: nothing here computes %q", r.id, r.quantity)
			continue
		}
		count[r.kind]++
		t.Run(r.id, func(t *testing.T) { r.compare(t, f(t, r.in)) })
	}
	t.Log(fmt.Sprint("rows: ", count))
	require.GreaterOrEqual(t, count["found"], 17)
	require.GreaterOrEqual(t, len(rows), 500)
}
