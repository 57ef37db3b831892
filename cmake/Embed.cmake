# SPDX-License-Identifier: GPL-3.0-or-later
# Builds resource files into a target, byte by byte, so that the program finds
# them without knowing where it is installed. String literals would meet the
# compiler's length limit; arrays of characters do not.
#
# wirewright_embed(TARGET target HEADER header FUNCTION qualified::name FILES file...)
# generates a source that defines, for a type {name, text} of the header's namespace,
#   const std::vector<ShippedFile>& name();
# The same file, run as a script, does the generating.

function(wirewright_embed)
  cmake_parse_arguments(arg "" "TARGET;HEADER;FUNCTION" "FILES" ${ARGN})
  string(REGEX REPLACE "^.*::" "" name ${arg_FUNCTION})
  set(output ${CMAKE_CURRENT_BINARY_DIR}/embedded/${name}.cpp)
  add_custom_command(OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} "-DOUTPUT=${output}" "-DHEADER=${arg_HEADER}" "-DFUNCTION=${arg_FUNCTION}"
      "-DFILES=${arg_FILES}" -P ${CMAKE_CURRENT_FUNCTION_LIST_FILE}
    DEPENDS ${arg_FILES} ${CMAKE_CURRENT_FUNCTION_LIST_FILE}
    COMMENT "Embedding ${name}" VERBATIM)
  target_sources(${arg_TARGET} PRIVATE ${output})
endfunction()

if(CMAKE_SCRIPT_MODE_FILE STREQUAL CMAKE_CURRENT_LIST_FILE)
  string(REGEX REPLACE "::[^:]*$" "" namespace ${FUNCTION})
  string(REGEX REPLACE "^.*::" "" name ${FUNCTION})
  set(arrays)
  set(rows)
  set(index 0)
  foreach(path IN LISTS FILES)
    cmake_path(GET path STEM LAST_ONLY stem)
    file(READ ${path} bytes HEX)
    string(REGEX REPLACE "(..)" "'\\\\x\\1'," bytes "${bytes}")
    string(APPEND arrays "constexpr char file${index}[] = {${bytes}};\n")
    string(APPEND rows "      {\"${stem}\", {file${index}, sizeof file${index}}},\n")
    math(EXPR index "${index} + 1")
  endforeach()
  file(WRITE ${OUTPUT} "// SPDX-License-Identifier: GPL-3.0-or-later
// Generated from resource files.
#include \"${HEADER}\"

namespace ${namespace} {

namespace {
${arrays}}  // namespace

const std::vector<ShippedFile>& ${name}() {
  static const std::vector<ShippedFile> files{
${rows}  };
  return files;
}

}  // namespace ${namespace}
")
endif()
