package text

var _ = entries{
	{"units.acre", "Every acre here is the international acre: 43 560 square feet of 0.3048 m. The acre of UCUM and UN/CEFACT Rec 20 is the US survey acre. It is larger by 4 parts in a million.", "Todo acre es aquí el acre internacional: 43 560 pies cuadrados de 0,3048 m. El acre de UCUM y UN/CEFACT Rec 20 es el acre topográfico de EE. UU. Es mayor en 4 partes por millón."},
}.add()
