package plane_test
import ("testing";"fmt";"math";"ringtrack/gear";"ringtrack/gear/plane")
func TestZ(t *testing.T){
 w:=gear.Wish{Module:.8,PressureAngle:30*math.Pi/180,RackType:'A',Share:.01953125,Spread:.1,ProcessPlay:.15,LeastTip:.45,Pinion:gear.MemberWish{Teeth:80},Ring:gear.MemberWish{Teeth:90},Backlash:gear.Fixed(.08)}
 p,_:=gear.Resolve(w)
 for i,l:=range []plane.Loop{p.Pinion.Outline(),p.Ring.Outline()} { l=l.Map(plane.Scaled(1/(1-0.005390167236328125)))
 _,err:=l.Offset(0.23917821049690247/2); fmt.Println(i,err); if err!=nil {
 for i,p:=range l.Unit { f0,f1:=p.Frame(0),p.Frame(1); fmt.Printf("%d %T %v %v K %.3g %.3g\n",i,p,f0.P,f1.P,f0.K,f1.K)}
 plane.DebugRaw(l,0.23917821049690247/2)}}
}
