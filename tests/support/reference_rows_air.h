// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace ww::testing {

/// Reference wirings of cooling alone, heating alone and two stages, as spreadsheets; all healthy.

/// Cooling only with a fan coil (C).
inline const std::string kRowC = R"(#unit,T,rc-1h1c-common,Control,Hall
#unit,A,coil-cooling,Fan coil,Attic
#unit,O,od-cool-1,Outdoor unit,East side
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,5,12,m,RD,T,R,A,R,
1,18,5,12,m,BU,T,C,A,C,
1,18,5,12,m,YE,T,Y,A,Y,
1,18,5,12,m,GN,T,G,A,G,
1,18,5,12,m,WH,T,*,A,*,spare
2,18,2,9,m,YE,A,Y,O,Y,
2,18,2,9,m,BU,A,C,O,C,
)";

/// Gas furnace, heat only, on two conductors (D).
inline const std::string kRowD = R"(#unit,T,rc-heat-only-2wire,Control,Hall
#unit,F,furnace-1,Furnace,Closet
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,2,15,m,RD,T,R,F,R,
1,18,2,15,m,WH,T,W,F,W,
)";

/// Two-stage furnace with two-stage cooling (F).
inline const std::string kRowF = R"(#unit,T,rc-2h2c,Control,Hall
#unit,F,furnace-2,Furnace,Closet
#unit,O,od-cool-2,Outdoor unit,North side
#set,stagedBy,control
#set,fanWithHeat,equipment
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,8,15,m,RD,T,R,F,R,
1,18,8,15,m,BU,T,C,F,C,
1,18,8,15,m,YE,T,Y1,F,Y1,
1,18,8,15,m,BK,T,Y2,F,Y2,
1,18,8,15,m,GN,T,G,F,G,
1,18,8,15,m,WH,T,W1,F,W1,
1,18,8,15,m,BN,T,W2,F,W2,
1,18,8,15,m,OG,T,*,F,*,spare
2,18,3,12,m,YE,F,Y1,O,Y1,
2,18,3,12,m,BK,F,Y2,O,Y2,
2,18,3,12,m,BU,F,C,O,C,
)";

/// Packaged rooftop unit with economizer (L).
inline const std::string kRowL = R"(#unit,T,rc-2h2c-occupied,Control,Shop
#unit,U,rooftop-2h2c,Rooftop unit,Roof
#set,fanWithHeat,equipment
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,8,45,m,RD,T,R,U,R,
1,18,8,45,m,BU,T,C,U,C,
1,18,8,45,m,YE,T,Y1,U,Y1,
1,18,8,45,m,BK,T,Y2,U,Y2,
1,18,8,45,m,GN,T,G,U,G,
1,18,8,45,m,WH,T,W1,U,W1,
1,18,8,45,m,BN,T,W2,U,W2,
1,18,8,45,m,OG,T,OC,U,OC,
)";

}  // namespace ww::testing
