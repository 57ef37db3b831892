// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace ww::testing {

/// Reference wirings with water and zones, as spreadsheets; all healthy.

/// Three zone valves on a boiler (E).
inline const std::string kRowE = R"(#unit,T1,rc-heat-only-2wire,Control 1,Living room
#unit,T2,rc-heat-only-2wire,Control 2,Bedrooms
#unit,T3,rc-heat-only-2wire,Control 3,Loft
#unit,B,boiler-tt,Boiler,Cellar
#unit,V1,zonevalve-motor-4,Zone valve 1,Cellar
#unit,V2,zonevalve-motor-4,Zone valve 2,Cellar
#unit,V3,zonevalve-motor-4,Zone valve 3,Cellar
#unit,Z,transformer-addon,Valve transformer,Cellar
#unit,S,tie-strip-7,Tie strip,Cellar
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,2,12,m,RD,T1,R,S,H,
1,18,2,12,m,WH,T1,W,S,W1,
2,18,2,12,m,RD,T2,R,S,H,
2,18,2,12,m,WH,T2,W,S,W2,
3,18,2,12,m,RD,T3,R,S,H,
3,18,2,12,m,WH,T3,W,S,W3,
4,18,4,8,m,RD,V1,M1,S,W1,
4,18,4,8,m,WH,V1,M2,S,N,
4,18,4,8,m,YE,V1,E1,S,E1,
4,18,4,8,m,GN,V1,E2,S,E2,
5,18,4,8,m,RD,V2,M1,S,W2,
5,18,4,8,m,WH,V2,M2,S,N,
5,18,4,8,m,YE,V2,E1,S,E1,
5,18,4,8,m,GN,V2,E2,S,E2,
6,18,4,8,m,RD,V3,M1,S,W3,
6,18,4,8,m,WH,V3,M2,S,N,
6,18,4,8,m,YE,V3,E1,S,E1,
6,18,4,8,m,GN,V3,E2,S,E2,
7,18,2,1,m,RD,Z,R,S,H,
7,18,2,1,m,BK,Z,C,S,N,
8,18,2,6,m,RD,S,E1,B,T1,
8,18,2,6,m,WH,S,E2,B,T2,
)";

/// Boiler and separate cooling, two transformers (K).
inline const std::string kRowK = R"(#unit,T,rc-two-hot,Control,Hall
#unit,A,coil-cooling,Fan coil,Attic
#unit,O,od-cool-1,Outdoor unit,North side
#unit,B,boiler-tt,Boiler,Cellar
#set,T.jumperRcRh,out
#set,fanWithHeat,equipment
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,5,14,m,RD,T,RC,A,R,
1,18,5,14,m,BU,T,C,A,C,
1,18,5,14,m,YE,T,Y,A,Y,
1,18,5,14,m,GN,T,G,A,G,
1,18,5,14,m,WH,T,*,A,*,spare
2,18,2,18,m,RD,T,RH,B,T1,
2,18,2,18,m,WH,T,W,B,T2,
3,18,2,10,m,YE,A,Y,O,Y,
3,18,2,10,m,BU,A,C,O,C,
)";

/// Millivolt heater (M).
inline const std::string kRowM = R"(#unit,T,rc-millivolt,Control,Workshop
#unit,H,heater-millivolt,Heater,Workshop
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,2,10,m,RD,T,M1,H,P1,
1,18,2,10,m,WH,T,M2,H,V1,
)";

/// Three zones with dampers on a furnace (N).
inline const std::string kRowN = R"(#unit,T1,rc-1h1c-common,Control 1,Ground floor
#unit,T2,rc-1h1c-common,Control 2,Upper floor
#unit,T3,rc-1h1c-common,Control 3,Loft
#unit,P,zonepanel-3,Zone panel,Closet
#unit,F,furnace-1,Furnace,Closet
#unit,O,od-cool-1,Outdoor unit,North side
#unit,D1,damper-pc,Damper 1,Closet
#unit,D2,damper-pc,Damper 2,Closet
#unit,D3,damper-pc,Damper 3,Closet
#unit,Z,transformer-addon,Panel transformer,Closet
#set,Z.transformer,XF50
#set,fanWithHeat,equipment
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,5,12,m,RD,T1,R,P,R1,
1,18,5,12,m,BU,T1,C,P,C1,
1,18,5,12,m,YE,T1,Y,P,Y1,
1,18,5,12,m,GN,T1,G,P,G1,
1,18,5,12,m,WH,T1,W,P,W1,
2,18,5,12,m,RD,T2,R,P,R2,
2,18,5,12,m,BU,T2,C,P,C2,
2,18,5,12,m,YE,T2,Y,P,Y2,
2,18,5,12,m,GN,T2,G,P,G2,
2,18,5,12,m,WH,T2,W,P,W2,
3,18,5,12,m,RD,T3,R,P,R3,
3,18,5,12,m,BU,T3,C,P,C3,
3,18,5,12,m,YE,T3,Y,P,Y3,
3,18,5,12,m,GN,T3,G,P,G3,
3,18,5,12,m,WH,T3,W,P,W3,
4,18,2,8,m,RD,P,D1,D1,M1,
4,18,2,8,m,WH,P,DC1,D1,M2,
5,18,2,8,m,RD,P,D2,D2,M1,
5,18,2,8,m,WH,P,DC2,D2,M2,
6,18,2,8,m,RD,P,D3,D3,M1,
6,18,2,8,m,WH,P,DC3,D3,M2,
7,18,2,1,m,RD,Z,R,P,XR,
7,18,2,1,m,BU,Z,C,P,XC,
8,18,4,2,m,RD,P,ER,F,R,
8,18,4,2,m,YE,P,EY,F,Y,
8,18,4,2,m,GN,P,EG,F,G,
8,18,4,2,m,WH,P,EW,F,W,
9,18,2,12,m,YE,F,Y,O,Y,
9,18,2,12,m,BU,F,C,O,C,
)";

/// Oil burner (O).
inline const std::string kRowO = R"(#unit,T,rc-heat-only-2wire,Control,Hall
#unit,B,oil-primary-tt,Oil burner,Cellar
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,2,12,m,RD,T,R,B,T1,
1,18,2,12,m,WH,T,W,B,T2,
)";

/// Hot-water coil with cooling (P).
inline const std::string kRowP = R"(#unit,T,rc-1h1c-common,Control,Hall
#unit,A,ah-hydronic,Air handler,Attic
#unit,O,od-cool-1,Outdoor unit,South side
#set,fanWithHeat,equipment
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,5,14,m,RD,T,R,A,R,
1,18,5,14,m,BU,T,C,A,C,
1,18,5,14,m,YE,T,Y,A,Y,
1,18,5,14,m,GN,T,G,A,G,
1,18,5,14,m,WH,T,W,A,W,
2,18,2,10,m,YE,A,Y,O,Y,
2,18,2,10,m,BU,A,C,O,C,
)";

/// Two-pipe fan coil (Q).
inline const std::string kRowQ = R"(#unit,T,rc-2pipe,Control,Hall
#unit,A,coil-2pipe,Fan coil,Ceiling
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,4,10,m,RD,T,R,A,R,
1,18,4,10,m,BU,T,C,A,C,
1,18,4,10,m,WH,T,V,A,V,
1,18,4,10,m,GN,T,G,A,G,
2,18,2,10,m,RD,T,S1,A,S1,
2,18,2,10,m,WH,T,S2,A,S2,
)";

}  // namespace ww::testing
