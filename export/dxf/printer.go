package dxf

import (
	"bufio"
	"fmt"
	"io"
	"strconv"

	"ringtrack/export/number"
)

// printer writes group codes and values. The first write error sticks to the
// buffer and comes out of flush.
type printer struct {
	w        *bufio.Writer
	decimals int
	buf      []byte
}

func newPrinter(w io.Writer, decimals int) *printer {
	return &printer{w: bufio.NewWriterSize(w, 64<<10), decimals: decimals}
}

func (p *printer) flush() error { return p.w.Flush() }

func (p *printer) text(code int, s string) {
	p.buf = strconv.AppendInt(p.buf[:0], int64(code), 10)
	p.buf = append(p.buf, '\n')
	p.buf = append(p.buf, s...)
	p.buf = append(p.buf, '\n')
	p.w.Write(p.buf)
}

func (p *printer) int(code, v int) { p.text(code, strconv.Itoa(v)) }

func (p *printer) handle(code, v int) { p.text(code, fmt.Sprintf("%X", v)) }

func (p *printer) real(code int, v float64) { p.fixed(code, v, p.decimals) }

func (p *printer) fixed(code int, v float64, decimals int) {
	p.buf = strconv.AppendInt(p.buf[:0], int64(code), 10)
	p.buf = append(p.buf, '\n')
	p.buf = number.Append(p.buf, v, decimals)
	p.buf = append(p.buf, '\n')
	p.w.Write(p.buf)
}

// tags writes pairs of group code and value.
func (p *printer) tags(pairs ...any) {
	for i := 0; i+1 < len(pairs); i += 2 {
		code := pairs[i].(int)
		switch v := pairs[i+1].(type) {
		case string:
			p.text(code, v)
		case int:
			p.int(code, v)
		case float64:
			p.real(code, v)
		}
	}
}
