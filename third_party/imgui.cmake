# Debian's Dear ImGui is a static archive holding core and back ends; its pkg-config file names
# neither GLFW nor the order in which a linker that drops unused libraries needs them. So the
# archive gets a target of its own whose followers come after it.
find_package(glfw3 3.3 REQUIRED)
find_package(OpenGL REQUIRED COMPONENTS OpenGL EGL)
pkg_check_modules(ImGui REQUIRED imgui>=1.86 imgui<1.87)
find_library(DRYOUT_IMGUI_ARCHIVE NAMES libimgui.a REQUIRED)
find_library(DRYOUT_STB NAMES stb REQUIRED)
find_path(DRYOUT_STB_INCLUDE NAMES stb_image_write.h PATH_SUFFIXES stb REQUIRED)

add_library(imgui_archive STATIC IMPORTED GLOBAL)
set_target_properties(imgui_archive PROPERTIES
  IMPORTED_LOCATION "${DRYOUT_IMGUI_ARCHIVE}"
  INTERFACE_INCLUDE_DIRECTORIES "${ImGui_INCLUDE_DIRS};${DRYOUT_STB_INCLUDE}"
  INTERFACE_LINK_LIBRARIES "${DRYOUT_STB};glfw;OpenGL::OpenGL;OpenGL::EGL;${CMAKE_DL_LIBS}")
