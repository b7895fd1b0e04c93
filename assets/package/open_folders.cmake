# CPack runs this over what it is about to pack: folders that everybody may look into, whatever the
# umask of who packs. (CMake 3.25 makes them with CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS less
# the umask.)
file(CHMOD_RECURSE "${CPACK_TEMPORARY_INSTALL_DIRECTORY}/usr" DIRECTORY_PERMISSIONS
     OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
