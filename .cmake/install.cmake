# What is installed, and the Debian package: cmake --install BUILD [--prefix DIR];  cd BUILD && cpack
set(doc ${CMAKE_INSTALL_DATADIR}/doc/vinehand)

install(TARGETS vinehand_cli RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(TARGETS vinehand ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR})
install(FILES model/vinehand.h DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(DIRECTORY params DESTINATION ${CMAKE_INSTALL_DATADIR}/vinehand)
install(DIRECTORY scenarios/two-bays DESTINATION ${doc}/examples FILES_MATCHING PATTERN "*.toml" PATTERN "*.csv"
    PATTERN out EXCLUDE)
install(FILES .cmake/copyright README.md DESTINATION ${doc})
install(FILES ${VINEHAND_PAGES}/vinehand DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions)
install(FILES ${VINEHAND_PAGES}/_vinehand DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES ${VINEHAND_PAGES}/vinehand.fish DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d)

# Debian wants these compressed; -n leaves name and time out.
configure_file(.cmake/changelog.in ${VINEHAND_PAGES}/changelog @ONLY)
set(compressed ${VINEHAND_PAGES}/vinehand.1.gz ${VINEHAND_PAGES}/vinehand-scenario.5.gz ${VINEHAND_PAGES}/changelog.gz)
add_custom_command(OUTPUT ${compressed} COMMAND gzip -9nkf vinehand.1 vinehand-scenario.5 changelog
    WORKING_DIRECTORY ${VINEHAND_PAGES} DEPENDS ${pages} ${VINEHAND_PAGES}/changelog VERBATIM)
add_custom_target(vinehand_compressed ALL DEPENDS ${compressed})
install(FILES ${VINEHAND_PAGES}/vinehand.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${VINEHAND_PAGES}/vinehand-scenario.5.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man5)
install(FILES ${VINEHAND_PAGES}/changelog.gz DESTINATION ${doc} RENAME changelog.Debian.gz)

# vinehand.pc names the prefix that is installed into, not the one that was configured.
set(VINEHAND_PREFIX @VINEHAND_PREFIX@)
configure_file(.cmake/vinehand.pc.in vinehand.pc.in @ONLY)
install(CODE "
    set(VINEHAND_PREFIX \"\${CMAKE_INSTALL_PREFIX}\")
    configure_file(\"${PROJECT_BINARY_DIR}/vinehand.pc.in\" \"${PROJECT_BINARY_DIR}/vinehand.pc\" @ONLY)")
install(FILES ${PROJECT_BINARY_DIR}/vinehand.pc DESTINATION ${CMAKE_INSTALL_LIBDIR}/pkgconfig)

# Those who link the archive need no bytecode of this very compiler, nor names of our build.
if(CMAKE_OBJCOPY AND CMAKE_C_COMPILER_ID STREQUAL "GNU")
    install(CODE "
        if(CMAKE_INSTALL_CONFIG_NAME STREQUAL Release)
            execute_process(COMMAND ${CMAKE_OBJCOPY} --enable-deterministic-archives --strip-debug -R .gnu.lto_* -R .gnu.debuglto_* -N __gnu_lto_v1
                \"\$ENV{DESTDIR}\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_LIBDIR}/libvinehand.a\" COMMAND_ERROR_IS_FATAL ANY)
        endif()")
endif()

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME vinehand)
set(CPACK_PACKAGE_VENDOR Vinehand)
set(CPACK_PACKAGE_CONTACT "Vinehand <vinehand@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "crop work and yield forecasts for trellised fruiting vines")
set(CPACK_PACKAGE_DESCRIPTION "Forecasts picks, market days, work and supplies of tomato, cucumber, pepper
and aubergine grown on strings, from a thermometer's log and the grower's
own records. Holds the program, its parameters with their sources, and the
library with its header.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "")
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "libgsl-dev, libcsv-dev, pkg-config")
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
    WORLD_READ WORLD_EXECUTE)
# The same bytes every time: all that is packed carries the day of this version.
configure_file(.cmake/cpack-epoch.cmake.in cpack-epoch.cmake @ONLY)
set(CPACK_PROJECT_CONFIG_FILE ${PROJECT_BINARY_DIR}/cpack-epoch.cmake)
include(CPack)
