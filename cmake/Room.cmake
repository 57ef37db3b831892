# SPDX-License-Identifier: GPL-3.0-or-later
# A room is one folder, one static library, one namespace. A room sees the
# headers of the rooms it names and of no other: every room has an include
# folder of its own that holds nothing but a link to that room.

# wirewright_room(NAME [NEEDS room...] [LIBS library...] [PRIVATE_LIBS library...])
function(wirewright_room name)
  cmake_parse_arguments(arg "" "" "NEEDS;LIBS;PRIVATE_LIBS" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${name}/*.cpp)
  set(include_dir ${PROJECT_BINARY_DIR}/rooms/${name})
  file(MAKE_DIRECTORY ${include_dir})
  file(CREATE_LINK ${CMAKE_CURRENT_SOURCE_DIR}/${name} ${include_dir}/${name} SYMBOLIC)
  if(sources)
    set(scope PUBLIC)
    set(private PRIVATE)
    add_library(ww_${name} STATIC ${sources})
    target_link_libraries(ww_${name} PRIVATE wirewright_flags)
  else()
    set(scope INTERFACE)
    set(private INTERFACE)
    add_library(ww_${name} INTERFACE)
  endif()
  add_library(Wirewright::${name} ALIAS ww_${name})
  target_include_directories(ww_${name} ${scope} ${include_dir})
  list(TRANSFORM arg_NEEDS PREPEND Wirewright::)
  target_link_libraries(ww_${name} ${scope} ${arg_NEEDS} ${arg_LIBS} ${private} ${arg_PRIVATE_LIBS})
endfunction()

# wirewright_precompiled(NAME HEADERS header... [LIBS library...])
# Headers that are read once for every target that says REUSE_FROM NAME; such a target links at least these
# libraries, for the compiler takes them only with the same definitions.
function(wirewright_precompiled name)
  cmake_parse_arguments(arg "" "" "HEADERS;LIBS" ${ARGN})
  set(source ${CMAKE_CURRENT_BINARY_DIR}/${name}.cpp)
  file(CONFIGURE OUTPUT ${source} CONTENT "")
  add_library(${name} OBJECT ${source})
  set_target_properties(${name} PROPERTIES AUTOMOC OFF)
  target_link_libraries(${name} PRIVATE wirewright_flags ${arg_LIBS})
  target_precompile_headers(${name} PRIVATE ${arg_HEADERS})
endfunction()
