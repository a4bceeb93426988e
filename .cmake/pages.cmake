# Manual pages and completions, made from the same lists as --help and the keys of the scenario.
file(GLOB VINEHAND_PAGE_SOURCES CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/cli/man/*.c)
add_executable(vinehand_pages ${VINEHAND_PAGE_SOURCES} ${PROJECT_SOURCE_DIR}/cli/commands/word_list.c)
target_include_directories(vinehand_pages PRIVATE ${PROJECT_SOURCE_DIR}/cli/man ${PROJECT_SOURCE_DIR}/cli/commands)
target_link_libraries(vinehand_pages PRIVATE vinehand_text vinehand vh_flags m)
target_link_options(vinehand_pages PRIVATE $<$<C_COMPILER_ID:GNU>:-fno-lto>)

set(VINEHAND_PAGES ${PROJECT_BINARY_DIR}/pages)
file(MAKE_DIRECTORY ${VINEHAND_PAGES})
set(pages)
foreach(page vinehand.1 vinehand-scenario.5 vinehand _vinehand vinehand.fish)
    list(APPEND pages ${VINEHAND_PAGES}/${page})
endforeach()
file(GLOB_RECURSE rows CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/params/*.csv)
add_custom_command(OUTPUT ${pages}
    COMMAND vinehand_pages ${PROJECT_SOURCE_DIR}/params ${VINEHAND_DATE} ${VINEHAND_PAGES}
    DEPENDS vinehand_pages ${rows} VERBATIM)
add_custom_target(vinehand_made_pages ALL DEPENDS ${pages})
