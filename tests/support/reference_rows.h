// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>
#include <string>

namespace ww::testing {

/// Reference wirings as spreadsheets: furnace with cooling (A), electric air handler with cooling (B), heat
/// pump with electric auxiliary (G). All healthy.
inline const std::string kRowA = R"(#unit,T,rc-1h1c-common
#unit,F,furnace-1
#unit,O,od-cool-1
#set,fanWithHeat,equipment
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,5,15,m,RD,T,R,F,R,
1,18,5,15,m,BU,T,C,F,C,
1,18,5,15,m,YE,T,Y,F,Y,
1,18,5,15,m,GN,T,G,F,G,
1,18,5,15,m,WH,T,W,F,W,
2,18,2,12,m,YE,F,Y,O,Y,
2,18,2,12,m,BU,F,C,O,C,
)";

inline const std::string kRowB = R"(#unit,T,rc-1h1c-common
#unit,A,ah-relay-sequencer
#unit,O,od-cool-1
#set,interlock,on
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,5,12,m,RD,T,R,A,R,
1,18,5,12,m,BU,T,C,A,C,
1,18,5,12,m,YE,T,Y,A,Y,
1,18,5,12,m,GN,T,G,A,G,
1,18,5,12,m,WH,T,W,A,W1,
2,18,2,9,m,YE,A,Y,O,Y,
2,18,2,9,m,BU,A,C,O,C,
)";

inline const std::string kRowG = R"(#unit,T,rc-heatpump-2
#unit,A,ah-board
#unit,O,od-heatpump-1-o
#set,rvSense,cooling
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
2,18,5,12,m,OG,A,O,O,O,
2,18,5,12,m,WH,A,W1,O,W,
)";

/// The text with one piece replaced. Throws when the piece is not there, so that no test edits nothing.
inline std::string edited(std::string text, const std::string& piece, const std::string& by) {
  const auto at = text.find(piece);
  if (at == std::string::npos) throw std::invalid_argument("not in the text: " + piece);
  return text.replace(at, piece.size(), by);
}

}  // namespace ww::testing
