package view

import (
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

const (
	mostTones = 8
	// darkest is the share of the lines' colour in the darkest tone.
	darkest = 0.5
	// smallestArea in pixels that a tone is shown on.
	smallestArea = 12
	// toneChord in pixels is how far a tone's border may leave the pixels'.
	toneChord = 0.7
)

// tones returns the areas of tone, bright ones first. Tone k > 0 is painted
// wherever it is as dark or darker.
func (s *scene) tones(opt Options, lamp solid.Point3, toPaper plane.Similarity) []figure.Mark {
	if opt.Look.Fill.A == 0 {
		return nil
	}
	s.shade(lamp, opt)
	s.raster.settle()
	var out []figure.Mark
	for k, loops := range s.raster.borders(opt.Tones) {
		var p figure.Path
		for _, l := range loops {
			if pts := simplify(l, toneChord); len(pts) > 3 {
				p = addRun(p, pts, true, toPaper)
			}
		}
		if len(p) > 0 {
			share := 0.0
			if opt.Tones > 1 {
				share = darkest * float64(k) / float64(opt.Tones-1)
			}
			out = append(out, figure.Mark{Path: p, Style: figure.Style{Fill: blend(opt.Look.Fill, opt.Look.Stroke, share)}})
		}
	}
	return out
}

// shade gives the raster's pixels the tones of their facets.
func (s *scene) shade(lamp solid.Point3, opt Options) {
	tone := make([]uint8, len(s.faces))
	least := math.Cos(opt.Crease)
	shade := s.shades(lamp)
	for i := range tone {
		dark := 1 - s.smooth(shade, i, least)
		tone[i] = uint8(1 + min(opt.Tones-1, int(dark*float64(opt.Tones))))
	}
	s.raster.tone = make([]uint8, len(s.raster.face))
	for i, f := range s.raster.face {
		if f >= 0 {
			s.raster.tone[i] = tone[f]
		}
	}
}

// shades returns how bright each facet is, 0..1: the cosine between its normal
// and the direction to the lamp.
func (s *scene) shades(lamp solid.Point3) []float64 {
	out := make([]float64, len(s.faces))
	for i, f := range s.faces {
		out[i] = math.Min(1, math.Max(0, f.normal.Dot(lamp)))
	}
	return out
}

// smooth returns the mean shade of facet f and of the one beyond its longest
// side, unless that is a crease: the two halves of a crooked quadrangle look the
// same.
func (s *scene) smooth(shade []float64, f int, least float64) float64 {
	k := s.facets[f]
	longest, beyond := 0.0, int32(-1)
	for i := range k {
		if l := s.at[k[i]].Sub(s.at[k[(i+1)%3]]).Len(); l > longest {
			longest, beyond = l, s.twin[3*f+i]
		}
	}
	if beyond < 0 || s.bend(int32(f), beyond/3) < least {
		return shade[f]
	}
	return (shade[f] + shade[beyond/3]) / 2
}

// blend returns the colour a share of the way from one to the other.
func blend(from, to figure.Colour, share float64) figure.Colour {
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a)*(1-share) + float64(b)*share)) }
	return figure.Colour{R: mix(from.R, to.R), G: mix(from.G, to.G), B: mix(from.B, to.B), A: from.A}
}
