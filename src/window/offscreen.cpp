#include "window/offscreen.h"

#include <EGL/egl.h>
#include <EGL/eglext.h>

#include <array>

namespace dryout::window {
namespace {

quantities::Problem refused(const char* step) {
  return {std::string("no drawing surface without a display: ") + step + " failed",
          {},
          "EGL error " + std::to_string(eglGetError()),
          "the packages libegl1, libegl-mesa0 and libgl1-mesa-dri installed"};
}

}  // namespace

quantities::Result<std::unique_ptr<Offscreen>> Offscreen::open(int width, int height) {
  auto screen = std::make_unique<Offscreen>();
  screen->display_ =
      eglGetPlatformDisplay(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr);
  if (screen->display_ == EGL_NO_DISPLAY ||
      eglInitialize(screen->display_, nullptr, nullptr) == EGL_FALSE) {
    return refused("opening EGL");
  }
  constexpr std::array<EGLint, 13> wanted{EGL_SURFACE_TYPE,
                                          EGL_PBUFFER_BIT,
                                          EGL_RED_SIZE,
                                          8,
                                          EGL_GREEN_SIZE,
                                          8,
                                          EGL_BLUE_SIZE,
                                          8,
                                          EGL_ALPHA_SIZE,
                                          8,
                                          EGL_RENDERABLE_TYPE,
                                          EGL_OPENGL_BIT,
                                          EGL_NONE};
  EGLConfig config = nullptr;
  EGLint count = 0;
  if (eglChooseConfig(screen->display_, wanted.data(), &config, 1, &count) == EGL_FALSE ||
      count == 0) {
    return refused("choosing a pixel format");
  }
  const std::array<EGLint, 5> size{EGL_WIDTH, width, EGL_HEIGHT, height, EGL_NONE};
  screen->surface_ = eglCreatePbufferSurface(screen->display_, config, size.data());
  eglBindAPI(EGL_OPENGL_API);
  constexpr std::array<EGLint, 7> version{EGL_CONTEXT_MAJOR_VERSION,
                                          3,
                                          EGL_CONTEXT_MINOR_VERSION,
                                          3,
                                          EGL_CONTEXT_OPENGL_PROFILE_MASK,
                                          EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT,
                                          EGL_NONE};
  screen->context_ = eglCreateContext(screen->display_, config, EGL_NO_CONTEXT, version.data());
  if (screen->surface_ == EGL_NO_SURFACE || screen->context_ == EGL_NO_CONTEXT ||
      eglMakeCurrent(screen->display_, screen->surface_, screen->surface_, screen->context_) ==
          EGL_FALSE) {
    return refused("making an OpenGL 3.3 context");
  }
  return screen;
}

Offscreen::~Offscreen() {
  if (display_ == EGL_NO_DISPLAY) {
    return;
  }
  eglMakeCurrent(display_, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
  if (context_ != EGL_NO_CONTEXT) {
    eglDestroyContext(display_, context_);
  }
  if (surface_ != EGL_NO_SURFACE) {
    eglDestroySurface(display_, surface_);
  }
  eglTerminate(display_);
}

}  // namespace dryout::window
