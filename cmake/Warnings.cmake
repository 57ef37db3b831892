# SPDX-License-Identifier: GPL-3.0-or-later
# One place for the flags that every target of the project is built with.
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG" CACHE STRING "Flags of a release build" FORCE)
add_library(wirewright_flags INTERFACE)
target_compile_features(wirewright_flags INTERFACE cxx_std_20)
target_compile_options(wirewright_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wnon-virtual-dtor -Wold-style-cast -Wcast-qual -Wunused -Werror
  # GCC 12 sees overlaps in std::string that are none (GCC bug 105651) and uninitialised members in std::variant
  # and std::optional that are never read; the sanitizers look for the real ones. At -O3 it sees more of both, so a
  # release is built at -O2.
  $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict -Wno-maybe-uninitialized>)

option(WIREWRIGHT_SANITIZE "Build with the address and undefined-behaviour sanitizers" OFF)
if(WIREWRIGHT_SANITIZE)
  target_compile_options(wirewright_flags INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=undefined -fno-omit-frame-pointer)
  target_link_options(wirewright_flags INTERFACE -fsanitize=address,undefined)
endif()
