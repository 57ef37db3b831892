// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace ww::testing {

/// A furnace with cooling whose control got its common by a sharing kit: four conductors, cooling and fan on
/// one of them. Healthy.
inline const std::string kRowShared = R"(#unit,T,rc-1h1c-common
#unit,F,furnace-1
#unit,O,od-cool-1
#unit,S,share-kit-sender
#unit,K,share-kit-receiver
#set,fanWithHeat,equipment
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,4,15,m,RD,T,R,F,R,
1,18,4,15,m,GN,T,C,F,/C,common since the kit
1,18,4,15,m,YE,T,/X,F,/X,shared
1,18,4,15,m,WH,T,W,F,W,
2,18,3,0.3,m,YE,T,Y,S,A,
2,18,3,0.3,m,GN,T,G,S,B,
2,18,3,0.3,m,BN,T,/X,S,X,
3,18,5,0.5,m,RD,F,R,K,R,
3,18,5,0.5,m,BU,F,/C,K,C,
3,18,5,0.5,m,BN,F,/X,K,X,
3,18,5,0.5,m,YE,F,Y,K,A,
3,18,5,0.5,m,GN,F,G,K,B,
4,18,2,12,m,YE,F,Y,O,Y,
4,18,2,12,m,BU,F,C,O,C,
,,,,,BU,F,C,F,/C,pigtail
)";

}  // namespace ww::testing
