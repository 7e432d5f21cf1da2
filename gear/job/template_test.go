package job_test

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/job"
)

// public is what a job says, without where it says it and what was measured.
func public(t *testing.T, j *job.Job) string {
	t.Helper()
	c := *j
	for _, m := range []*job.Making{&c.Pinion.Making, &c.Ring.Making} {
		m.Measured, m.ShrinkageSource, m.KerfSource = job.Measured{}, "", ""
	}
	text, err := json.MarshalIndent(c, "", " ")
	require.NoError(t, err)
	return string(text)
}

var commentedKey = regexp.MustCompile(`(?m)^#([a-z_]+ = )`)

func TestTemplateIsTheSeedlingCarousel(t *testing.T) {
	j := mustRead(t, string(job.Template()))
	assert.Equal(t, "Seedling carousel", j.Title)
	assert.Equal(t, 2.5, j.Teeth.Module)
	assert.Equal(t, 15, j.Teeth.Pinion)
	assert.Equal(t, 104, j.Teeth.Ring)
	assert.Equal(t, &job.Bore{Shape: "d", Diameter: 6, AcrossFlat: 5.5, Clearance: 0.1}, j.Pinion.Bore)
	assert.Equal(t, 4.5, j.Ring.Bolts.Hole)
}

// A default that the template shows is the default.
func TestTemplateShowsTrueDefaults(t *testing.T) {
	text := string(job.Template())
	want := public(t, mustRead(t, text))
	all := commentedKey.FindAllString(text, -1)
	require.Greater(t, len(all), 20)
	assert.Equal(t, want, public(t, mustRead(t, commentedKey.ReplaceAllString(text, "$1"))))
	for _, line := range all {
		one := strings.Replace(text, "\n"+line, "\n"+line[1:], 1)
		require.NotEqual(t, text, one)
		assert.Equal(t, want, public(t, mustRead(t, one)), line)
	}
}

func TestTemplateNamesEveryKeyAndFitsAScreen(t *testing.T) {
	text := string(job.Template())
	for _, k := range job.Keys() {
		if job.Reads(k.From) {
			assert.Regexp(t, `(?m)^(#|# |# .*)?`+k.Name+`\b`, text)
		}
	}
	for i, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, len(line), 100, "line %d", i+1)
	}
	assert.Equal(t, text, string(job.Template()))
}

func TestReferenceNamesEveryKey(t *testing.T) {
	text := job.Reference()
	for _, k := range job.Keys() {
		name := "`" + k.Name + "`"
		if !job.Reads(k.From) {
			name = "`" + k.Paths()[0] + "`"
		}
		assert.Contains(t, text, name)
		assert.Contains(t, text, k.Meaning)
	}
	for _, line := range strings.Split(text, "\n") {
		if strings.HasPrefix(line, "|") {
			assert.Contains(t, []int{4, 7}, strings.Count(line, "|")-strings.Count(line, `\|`), line)
		}
	}
	assert.Equal(t, text, job.Reference())
}

func TestKeysAreCopies(t *testing.T) {
	k := job.Keys()
	for i := range k {
		for n := range k[i].Also {
			k[i].Also[n] = "x"
		}
		k[i].Name = "x"
	}
	assert.Equal(t, "format", job.Keys()[0].Name)
	mustRead(t, least)
}
