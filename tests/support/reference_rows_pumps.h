// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace ww::testing {

/// Reference wirings with heat pumps beyond the first, as spreadsheets; all healthy.

/// Heat pump whose valve is energised in heating, electric auxiliary (H).
inline const std::string kRowH = R"(#unit,T,rc-heatpump-2,Control,Hall
#unit,A,ah-board,Air handler,Attic
#unit,O,od-heatpump-1-b,Heat pump,East side
#set,rvSense,heating
#set,emergencyBy,W2
#set,fanWithHeat,equipment
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,7,15,m,RD,T,R,A,R,
1,18,7,15,m,BU,T,C,A,C,
1,18,7,15,m,YE,T,Y1,A,Y1,
1,18,7,15,m,GN,T,G,A,G,
1,18,7,15,m,OG,T,RV,A,O,
1,18,7,15,m,WH,T,W2,A,W1,
1,18,7,15,m,BN,T,*,A,*,spare
2,18,5,12,m,RD,A,R,O,R,
2,18,5,12,m,BU,A,C,O,C,
2,18,5,12,m,YE,A,Y1,O,Y1,
2,18,5,12,m,OG,A,O,O,B,
2,18,5,12,m,WH,A,W1,O,W,
)";

/// Heat pump in two stages, electric auxiliary in two banks, emergency heat on both (I).
inline const std::string kRowI = R"(#unit,T,rc-heatpump-2,Control,Hall
#unit,A,ah-board,Air handler,Attic
#unit,O,od-heatpump-2-o,Heat pump,West side
#set,A.transformer,XF50
#set,compressorStages,2
#set,emergencyBy,W2+E
#set,fanWithHeat,equipment
#set,rvSense,cooling
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,8,18,m,RD,T,R,A,R,
1,18,8,18,m,BU,T,C,A,C,
1,18,8,18,m,YE,T,Y1,A,Y1,
1,18,8,18,m,BK,T,Y2,A,Y2,
1,18,8,18,m,GN,T,G,A,G,
1,18,8,18,m,OG,T,RV,A,O,
1,18,8,18,m,WH,T,W2,A,W1,
1,18,8,18,m,BN,T,E,A,W2,
2,18,7,15,m,RD,A,R,O,R,
2,18,7,15,m,BU,A,C,O,C,
2,18,7,15,m,YE,A,Y1,O,Y1,
2,18,7,15,m,BK,A,Y2,O,Y2,
2,18,7,15,m,OG,A,O,O,O,
2,18,7,15,m,WH,A,W1,O,W,
2,18,7,15,m,BN,A,*,O,*,spare
)";

/// Heat pump over a gas furnace, the control changes over (J).
inline const std::string kRowJ = R"(#unit,T,rc-heatpump-2,Control,Hall
#unit,F,furnace-1,Furnace,Closet
#unit,O,od-heatpump-1-o,Heat pump,South side
#set,F.transformer,XF50
#set,dualFuel,outdoor
#set,emergencyBy,W2
#set,fanWithHeat,equipment
#set,rvSense,cooling
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,7,15,m,RD,T,R,F,R,
1,18,7,15,m,BU,T,C,F,C,
1,18,7,15,m,YE,T,Y1,F,Y,
1,18,7,15,m,GN,T,G,F,G,
1,18,7,15,m,OG,T,RV,F,/S1,
1,18,7,15,m,WH,T,W2,F,W,
1,18,7,15,m,BN,T,*,F,*,spare
2,18,5,12,m,RD,F,R,O,R,
2,18,5,12,m,BU,F,C,O,C,
2,18,5,12,m,YE,F,Y,O,Y1,
2,18,5,12,m,OG,F,/S1,O,O,
2,18,5,12,m,WH,F,W,O,W,
)";

/// The same equipment with a control that cannot change over and a relay board that does (J).
inline const std::string kRowJWithKit = R"(#unit,T,rc-heatpump-2,Control,Hall
#unit,K,dual-fuel-kit,Relay board,Closet
#unit,F,furnace-1,Furnace,Closet
#unit,O,od-heatpump-1-o,Heat pump,South side
#set,F.transformer,XF75
#set,emergencyBy,W2
#set,fanWithHeat,equipment
#set,rvSense,cooling
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,7,15,m,RD,T,R,K,R,
1,18,7,15,m,BU,T,C,K,C,
1,18,7,15,m,YE,T,Y1,K,Y,
1,18,7,15,m,GN,T,G,K,/G,
1,18,7,15,m,OG,T,RV,K,O,
1,18,7,15,m,WH,T,W2,K,W2,
1,18,7,15,m,BN,T,*,K,*,spare
2,18,5,1,m,RD,K,R,F,R,
2,18,5,1,m,BU,K,C,F,C,
2,18,5,1,m,YE,K,YO,F,Y,
2,18,5,1,m,GN,K,/G,F,G,
2,18,5,1,m,WH,K,WF,F,W,
3,18,5,12,m,RD,K,R,O,R,
3,18,5,12,m,BU,K,C,O,C,
3,18,5,12,m,YE,K,YO,O,Y1,
3,18,5,12,m,OG,K,O,O,O,
3,18,5,12,m,WH,K,DW,O,W,
)";

/// Inverter heat pump on its 24 V interface (R).
inline const std::string kRowR = R"(#unit,T,rc-heatpump-2,Control,Hall
#unit,A,ah-board,Air handler,Attic
#unit,O,od-inverter-24v,Inverter unit,North side
#set,compressorStages,2
#set,emergencyBy,W2
#set,fanWithHeat,equipment
#set,rvSense,cooling
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,8,15,m,RD,T,R,A,R,
1,18,8,15,m,BU,T,C,A,C,
1,18,8,15,m,YE,T,Y1,A,Y1,
1,18,8,15,m,BK,T,Y2,A,Y2,
1,18,8,15,m,GN,T,G,A,G,
1,18,8,15,m,OG,T,RV,A,O,
1,18,8,15,m,WH,T,W2,A,W1,
1,18,8,15,m,BN,T,*,A,*,spare
2,18,7,12,m,RD,A,R,O,R,
2,18,7,12,m,BU,A,C,O,C,
2,18,7,12,m,YE,A,Y1,O,Y1,
2,18,7,12,m,BK,A,Y2,O,Y2,
2,18,7,12,m,OG,A,O,O,O,
2,18,7,12,m,WH,A,W1,O,W,
2,18,7,12,m,BN,A,*,O,*,spare
)";

}  // namespace ww::testing
