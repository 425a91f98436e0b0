from typing import NamedTuple
class CoverEffect(NamedTuple):
    maximum_gain: tuple
    minimum_gain: tuple
    soil_gain: float
    frost_gain: float
    light: float
_K={"glasshouse":CoverEffect((3.,5.,3.,4.),(2.,2.,2.,2.),2.,2.,.85),"fleece":CoverEffect((2.,4.,2.,3.),(1.,1.,1.,1.),1.,1.5,.85),
"low tunnel":CoverEffect((3.,5.,3.,4.),(1.,1.,1.,1.),2.,1.5,.85),"cloche":CoverEffect((3.,5.,3.,4.),(1.,1.,1.,1.),2.,1.5,.85),
"film":CoverEffect((0.,0.,0.,0.),(.3,.3,.3,.3),2.,0.,1.),"netting":CoverEffect((0.,0.,0.,0.),(0.,0.,0.,0.),0.,0.,.9)}
def effect(kind): return _K.get(kind)
def together(es):
    return es[0]
