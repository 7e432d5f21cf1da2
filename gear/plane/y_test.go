package plane
import "fmt"
var DebugCross = crossings
func DebugRaw(l Loop, d float64) { o:=newOffsetter(l,d); 
 for i:=o.lo;i<o.hi;i++ { p:=o.raw[i]; fmt.Printf("%d %T %v %v\n",i-o.lo,p,p.At(0),p.At(1)); cs:=o.cuts(i); for k:=1;k<len(cs);k++ { fmt.Printf("    %.12f %.12f %v\n",cs[k-1],cs[k],o.stands(p,cs[k-1],cs[k])) } }
}
