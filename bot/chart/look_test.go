package chart
import ("testing")
func TestLook(t *testing.T){
 for n,name := range map[string]string{"lat":"Blue hatch","heb":"רכב כחול 12 (חדש)","ar":"سيارة زرقاء ١٢","han":"蓝色闪电号 长名字长名字长名字长名字长名字长名字长名字","dev":"नीली गाड़ी, क्षत्रिय","th":"รถสีน้ำเงินที่เร็ว","mix":"Blue רכב 12 車 hatch","ko":"푸른번개","mark":"Nguyễn Ще́дрый x̌"} {
  w:=windows(); w.Title="\u2068"+name+"\u2069, bumpy track"; drawn(t,w,"look-"+n)
 }
}
