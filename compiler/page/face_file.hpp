// A font file, opened and checked before anything is measured or printed with it.
#pragma once
#include <hb.h>
#include <memory>
#include <string>

namespace loomsheet {

struct FontFace {
    struct Drop {
        void operator()(hb_face_t* held) const { hb_face_destroy(held); }
    };
    std::unique_ptr<hb_face_t, Drop> face; // null when it failed
    std::string error;                     // what is wrong with the file, in words
};

// Looks in the folders of $LOOMSHEET_FONTS (split at ':') and nowhere else; where that is not set, in the usual ones of
// Debian. Empty when no folder has it.
std::string find_font_file(const std::string& name);
// The folders that are searched, as words.
std::string font_folders_in_words();

// Maps the file into memory. The tables for measuring must lie inside the file and agree with their checksums and with
// each other (OpenType 1.9, "Organization of an OpenType Font"). Other tables are never read.
FontFace open_font_file(const std::string& path);
// The same for the outlines, which are most of the file: checked before they are printed. Empty when they are sound.
std::string flaw_of_outlines(hb_face_t* face, const std::string& path);

} // namespace loomsheet
