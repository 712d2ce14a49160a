package sum
import ("testing";"fmt";"blanch/sim/quantity")
func TestTry(t *testing.T){
 k,_:=Named("rate")
 s,err:=k.New(map[string]quantity.Quantity{"dose":quantity.Of(0.1,"mcg/kg/min"),"weight":quantity.Of(154,"lb"),"amount":quantity.Of(4,"mg"),"volume":quantity.Of(250,"mL")},quantity.Unit{})
 if err!=nil{t.Fatal(err)}
 for _,l:=range s.Working(){fmt.Println(l)}
 for _,x:=range s.Slips(){fmt.Printf("%-45s %v %s step %d  %s | %s\n",x.Name,x.Family,x.Value,x.Step,s.Shown(x),s.Mark(s.Shown(x).String()).Diagnosis.Sentence())}
 fmt.Println(s.Overlaps())
}
