# Writes one C++ file that holds files as strings, by their names: cmake -DOUTPUT=… -DARRAY=… "-DGLOBS=folder/*.md;…" -P embed.cmake
# gives `const std::pair<std::string_view, std::string_view> ARRAY[]` and how many they are, `ARRAY_count`.
file(GLOB files ${GLOBS})
set(text "#include <string_view>\n#include <utility>\nnamespace loomsheet {\nextern const std::pair<std::string_view, std::string_view> ${ARRAY}[];\nextern const unsigned long ${ARRAY}_count;\nconst std::pair<std::string_view, std::string_view> ${ARRAY}[] = {\n")
set(count 0)
foreach(file ${files})
  get_filename_component(name ${file} NAME)
  # Bytes as hex, so that nothing in a file has to be escaped.
  file(READ ${file} hex HEX)
  string(REGEX REPLACE "(..)" "\\\\x\\1" bytes "${hex}")
  string(LENGTH "${hex}" digits)
  math(EXPR length "${digits} / 2")
  string(APPEND text "{\"${name}\", std::string_view(\"${bytes}\", ${length})},\n")
  math(EXPR count "${count} + 1")
endforeach()
string(APPEND text "{{}, {}}};\nconst unsigned long ${ARRAY}_count = ${count};\n} // namespace loomsheet\n")
file(WRITE ${OUTPUT} "${text}")
