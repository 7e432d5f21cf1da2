package sheet_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/figure"
	"ringtrack/export/sheet"
	"ringtrack/export/svg"
	"ringtrack/gear/drive"
)

// TestDatasheet: one page with the numbers that the design has, inside the
// frame, the same bytes twice.
func TestDatasheet(t *testing.T) {
	dir := folder(t)
	for _, name := range []string{"seedling-carousel", "thinning-drum", "tray-rotator"} {
		d := design(t, name)
		f, err := sheet.Datasheet(d)
		require.NoError(t, err)
		all := "\n" + strings.Join(words(t, f), "\n") + "\n"
		p := d.Pair
		for _, want := range []string{
			d.Job.Title, fmt.Sprint(p.Pinion.Teeth), fmt.Sprint(p.Ring.Teeth), fmt.Sprintf("%.3f", p.Pinion.ReferenceDiameter),
			fmt.Sprintf("%.3f", p.Ring.TipDiameter),
			fmt.Sprintf("span over %d teeth  W", p.Pinion.SpanTeeth), d.Verdict(), fmt.Sprintf("%.3f", p.Backlash.Circumferential),
			fmt.Sprintf("%.4g", p.Pinion.Pins.Diameter),
		} {
			require.Contains(t, all, "\n"+want+"\n", name)
		}
		require.Contains(t, all, fmt.Sprintf("\n%.3f", p.CentreDistance))
		require.Contains(t, all, fmt.Sprintf("%.3f (%.3f)", p.Pinion.SpanLength, d.Pinion.Gauge.Span))
		flat := strings.ReplaceAll(all, "\n", " ")
		for _, c := range drive.Cautions() {
			require.Contains(t, flat, c, "%s: a caution is cut off", name)
		}
		marks, err := f.Marks()
		require.NoError(t, err)
		box := figure.Extent(marks)
		require.GreaterOrEqual(t, min(box.Min.X, box.Min.Y), 7.5, name)
		require.LessOrEqual(t, box.Max.X, f.Width-7.5, name)
		require.LessOrEqual(t, box.Max.Y, f.Height-7.5, name)
		data := writePDF(t, filepath.Join(dir, name+"-data.pdf"), []figure.Figure{f})
		require.Equal(t, data, writePDF(t, "", []figure.Figure{f}))
		var b bytes.Buffer
		require.NoError(t, svg.WriteFigure(&b, f))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+"-data.svg"), b.Bytes(), 0o644))
	}
	_, err := sheet.Datasheet(&drive.Design{})
	require.ErrorContains(t, err, "no teeth")
	_, err = sheet.Datasheet(nil)
	require.ErrorContains(t, err, "no teeth")
}
