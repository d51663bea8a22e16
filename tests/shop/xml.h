/* xml.h - a strict reader of small XML files, and the few questions the tests of drawings ask of one.
 *
 * To be included by a program's one source.  Takes a declaration and one element with all it holds; attributes with
 * double quotes, no name twice in an element, no id twice in the file; the predefined entities only; UTF-8 and the
 * characters of XML 1.0.  Comments, processing instructions and document types are refused: the writer has none.
 */
#ifndef PLYLOFT_TESTS_SHOP_XML_H
#define PLYLOFT_TESTS_SHOP_XML_H

#include "../support.h"

#include "plyloft/text.h"

#include <ctype.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { XML_MOST_IDS = 64, XML_LONGEST = 200 };

struct xml {
    const char *at;
    const char *wrong;  /* the first fault, or NULL */
    char ids[XML_MOST_IDS][XML_LONGEST];
    int id_count, elements, depth;
};

static inline bool xml_fault(struct xml *xml, const char *what)
{
    if (!xml->wrong)
        xml->wrong = what;
    return false;
}

static inline bool xml_take(struct xml *xml, const char *text)
{
    if (strncmp(xml->at, text, strlen(text)))
        return false;
    xml->at += strlen(text);
    return true;
}

static inline void xml_blanks(struct xml *xml)
{
    while (*xml->at == ' ' || *xml->at == '\n')
        xml->at++;
}

/* Char of XML 1.0. */
static inline bool xml_is_character(uint32_t code)
{
    return code == 9 || code == 10 || code == 13 || (code >= 0x20 && code <= 0xd7ff) ||
           (code >= 0xe000 && code <= 0xfffd) || code >= 0x10000;
}

/* Character data up to a quote or the next element. */
static inline bool xml_characters(struct xml *xml, char end)
{
    static const char *const entities[] = {"&amp;", "&lt;", "&gt;", "&quot;", "&apos;"};
    while (*xml->at && *xml->at != end && *xml->at != '<') {
        uint32_t code = 0;
        size_t length = pl_utf8_decode(xml->at, strlen(xml->at), &code), i = 0;
        if (!length || !xml_is_character(code))
            return xml_fault(xml, "a character XML does not have");
        if (!strncmp(xml->at, "]]>", 3))
            return xml_fault(xml, "the end of a section outside one");
        if (*xml->at != '&') {
            xml->at += length;
            continue;
        }
        while (i < 5 && !xml_take(xml, entities[i]))
            i++;
        if (i == 5)
            return xml_fault(xml, "an entity nobody declared");
    }
    return *xml->at == end || xml_fault(xml, "text that does not end where it must");
}

/* A name without a colon's other uses; non-ASCII characters pass. */
static inline bool xml_name(struct xml *xml, char *out)
{
    int n = 0;
    unsigned char c;
    while (n < XML_LONGEST - 1 && (c = (unsigned char)*xml->at) != 0 &&
           (isalpha(c) || c == '_' || c >= 0x80 || (n && (isdigit(c) || strchr("-.:", c)))))
        out[n++] = *xml->at++;
    out[n] = '\0';
    return n > 0 || xml_fault(xml, "no name where there must be one");
}

static inline bool xml_id(struct xml *xml, const char *value, size_t length)
{
    char *id = xml->ids[xml->id_count];
    if (xml->id_count == XML_MOST_IDS || length >= XML_LONGEST)
        return xml_fault(xml, "more or longer ids than this reader takes");
    struct xml name = {.at = value};
    if (!xml_name(&name, id) || name.at != value + length || strchr(id, ':'))
        return xml_fault(xml, "an id that is no name");
    for (int i = 0; i < xml->id_count; i++)
        if (!strcmp(xml->ids[i], id))
            return xml_fault(xml, "an id twice");
    xml->id_count++;
    return true;
}

static inline bool xml_attributes(struct xml *xml)
{
    char names[16][XML_LONGEST];
    for (int n = 0; *xml->at == ' '; n++) {
        xml_blanks(xml);
        if (n == 16 || !xml_name(xml, names[n]))
            return xml_fault(xml, "too many attributes");
        for (int i = 0; i < n; i++)
            if (!strcmp(names[i], names[n]))
                return xml_fault(xml, "an attribute twice");
        if (!xml_take(xml, "=\""))
            return xml_fault(xml, "an attribute without a value");
        const char *value = xml->at;
        if (!xml_characters(xml, '"'))
            return false;
        if (!strcmp(names[n], "id") && !xml_id(xml, value, (size_t)(xml->at - value)))
            return false;
        xml->at++;
    }
    return true;
}

static inline bool xml_element(struct xml *xml)
{
    char name[XML_LONGEST], closing[XML_LONGEST];
    if (!xml_take(xml, "<") || !xml_name(xml, name) || !xml_attributes(xml))
        return xml_fault(xml, "no element where there must be one");
    xml->elements++;
    if (xml_take(xml, "/>"))
        return true;
    if (!xml_take(xml, ">") || ++xml->depth > 20)
        return xml_fault(xml, "an element that does not open well");
    while (xml_characters(xml, '<') && !xml_take(xml, "</"))
        if (!xml_element(xml))
            return false;
    xml->depth--;
    if (xml->wrong || !xml_name(xml, closing) || strcmp(name, closing) || !xml_take(xml, ">"))
        return xml_fault(xml, "an element that does not close well");
    return true;
}

/* Reads all of text; what is wrong stands in xml->wrong. */
static inline bool xml_read(struct xml *xml, const char *text)
{
    *xml = (struct xml){.at = text};
    if (!xml_take(xml, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>"))
        return xml_fault(xml, "no declaration");
    xml_blanks(xml);
    if (!xml_element(xml))
        return false;
    xml_blanks(xml);
    return !*xml->at || xml_fault(xml, "something behind the end");
}

static inline void assert_well_formed(struct xml *xml, const char *text)
{
    if (!xml_read(xml, text))
        fail_msg("%s, before: %.60s", xml->wrong, xml->at);
}

#endif
