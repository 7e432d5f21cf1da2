package report_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/export/report"
	"ringtrack/gear/drive"
	"ringtrack/gear/job"
)

func plantStand(t *testing.T, change ...string) *drive.Design {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", "plant-stand.toml"))
	require.NoError(t, err)
	j, found := job.Read("plant-stand.toml", []byte(strings.NewReplacer(change...).Replace(string(data))))
	require.NotNil(t, j, "%v", found)
	return drive.Resolve(j)
}

// The report of a driven job: its sections, its width, its figures.
func TestLoadReported(t *testing.T) {
	for _, d := range []*drive.Design{
		plantStand(t),
		plantStand(t, "mass = 8", "mass = 80000", `pull = "0.4 kgf"`, "pull = 900000", `"6 kgf cm"`, "9000000", `"8 kgf cm"`, "9000000"),
		plantStand(t, `"6 kgf cm"`, "20", "[12, 9, 6]", "[12, 1.5, 0.5]"),
		plantStand(t, `material = "tpu-95a"`, ""),
	} {
		var b bytes.Buffer
		require.NoError(t, report.WriteText(&b, d, report.Built{}))
		for _, line := range strings.Split(b.String(), "\n") {
			assert.LessOrEqual(t, len([]rune(line)), 100, line)
			assert.NotContains(t, line, "NaN")
		}
		for _, part := range []string{"Motor and platform", "Play at the platform", "Teeth under load", "Control card", "ISO 13854"} {
			assert.Contains(t, b.String(), part)
		}
		b.Reset()
		require.NoError(t, report.WriteJSON(&b, d, report.Built{}))
		require.True(t, json.Valid(b.Bytes()))
	}
}

// report.json holds what the report says of the load, flexible teeth included.
func TestLoadJSON(t *testing.T) {
	d := plantStand(t)
	var b bytes.Buffer
	require.NoError(t, report.WriteJSON(&b, d, report.Built{}))
	var r struct {
		Pinion struct {
			Flexible struct {
				Thicker   float64
				TipRelief float64 `json:"tip_relief"`
			}
		}
		Load struct {
			Supply    float64
			Materials struct{ Pinion struct{ Flexible bool } }
			Cases     []struct {
				Name   string
				Pinion struct{ Safety, Needed float64 }
			}
			Drive struct{ Points []struct{ Supply float64 } }
			Card  struct {
				Fraction string
				Steps    string
				Whole    bool    `json:"steps_whole"`
				Pass     float64 `json:"tooth_pass"`
			} `json:"control_card"`
		}
		Cautions []string
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &r))
	assert.Equal(t, 12.0, r.Load.Supply)
	assert.True(t, r.Load.Materials.Pinion.Flexible)
	assert.Len(t, r.Load.Cases, 4)
	assert.Len(t, r.Load.Drive.Points, 3)
	assert.Equal(t, "10608/7", r.Load.Card.Fraction)
	assert.Equal(t, "466752/7", r.Load.Card.Steps)
	assert.False(t, r.Load.Card.Whole)
	assert.Positive(t, r.Load.Card.Pass)
	assert.InDelta(t, d.Pair.Pinion.Flexible.Relief, r.Pinion.Flexible.TipRelief, 1e-9)
	assert.Positive(t, r.Pinion.Flexible.Thicker)
	assert.Contains(t, strings.Join(r.Cautions, " "), "licensed practitioner")
}
