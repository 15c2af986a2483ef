"""Asks ICU how characters look: `look_alikes.py data` prints src/MicRegister.Register/People/LookAlikes.txt below its licence,
`look_alikes.py cases` prints skeletons.json. Needs Debian's libicu72 (ICU 72.1, Unicode 15.0) and nothing else; the same bytes each time."""
import ctypes
import json
import random
import sys

I18N, UC = ctypes.CDLL('libicui18n.so.72'), ctypes.CDLL('libicuuc.so.72')
HANGUL = range(0xAC00, 0xAC00 + 11172)


def call(function, *arguments, result=ctypes.c_int):
    function.restype = result
    status = ctypes.c_int(0)
    answer = function(*arguments, ctypes.byref(status))
    assert status.value <= 0, status.value
    return answer


CHECKER = ctypes.c_void_p(call(I18N.uspoof_open_72, result=ctypes.c_void_p))
FORMS = {form: ctypes.c_void_p(call(getattr(UC, f'unorm2_get{form}Instance_72'), result=ctypes.c_void_p)) for form in ('NFD', 'NFKD')}


def normal(form, text):
    units, out = text.encode('utf-16-le'), ctypes.create_string_buffer(8192)
    count = call(UC.unorm2_normalize_72, FORMS[form], units, len(units) // 2, out, 4096)
    return out.raw[:2 * count].decode('utf-16-le')


def icu_skeleton(text):
    raw, out = text.encode(), ctypes.create_string_buffer(8192)
    count = call(I18N.uspoof_getSkeletonUTF8_72, CHECKER, ctypes.c_uint32(0), raw, len(raw), out, 8192)
    return out.raw[:count].decode()


def is_ignorable(c):
    return bool(UC.u_hasBinaryProperty_72(ctypes.c_int32(c), 5))  # UCHAR_DEFAULT_IGNORABLE_CODE_POINT


def combining_class(c):
    return UC.u_getCombiningClass_72(ctypes.c_int32(c)) & 0xFF


def skeleton(text):
    """ICU 72 is older than the step of UTS #39 that leaves out what is ignorable, between NFD and the prototypes."""
    return icu_skeleton(''.join(c for c in normal('NFD', text) if not is_ignorable(ord(c))))


def ranges(points):
    found = []
    for c in sorted(points):
        if found and found[-1][1] == c - 1:
            found[-1][1] = c
        else:
            found.append([c, c])
    return [f'{a:X}' if a == b else f'{a:X}-{b:X}' for a, b in found]


def lines(head, items):
    line = head
    for item in items:
        if len(line) + 1 + len(item) > 148:
            print(line)
            line = head
        line += ' ' + item
    print(line)


def data():
    all_of_them = [c for c in range(0x110000) if not 0xD800 <= c < 0xE000]
    classes, canonical, compatible, prototype = {}, [], [], []
    points = lambda c, text: f'{c:X}=' + '.'.join(f'{ord(x):X}' for x in text)
    for c in all_of_them:
        text, plain = chr(c), normal('NFD', chr(c))
        if combining_class(c):
            classes.setdefault(combining_class(c), []).append(c)
        if c in HANGUL:
            continue
        if plain != text:
            canonical.append(points(c, plain))
        elif icu_skeleton(text) != text:
            prototype.append(points(c, icu_skeleton(text)))
        if normal('NFKD', text) != plain:
            compatible.append(points(c, normal('NFKD', text)))
    lines('ignorable', ranges(c for c in all_of_them if is_ignorable(c)))
    for key in sorted(classes):
        lines(f'class:{key}', ranges(classes[key]))
    lines('canonical', canonical)
    lines('compatible', compatible)
    lines('prototype', prototype)


def cases():
    seed = random.Random(39)
    blocks = [range(0x20, 0x7F), range(0xA0, 0x250), range(0x300, 0x370), range(0x370, 0x530), range(0x531, 0x588), range(0x1E00, 0x2000),
              range(0x200B, 0x2010), range(0xAC00, 0xD7A4), range(0xFF01, 0xFF5F), range(0x1D400, 0x1D7FF), range(0x5D0, 0x5EB), range(0x900, 0x980)]
    texts = ['Olive', 'раураl', 'ΗΑΝΝΑ', 'Ｏｌｉｖｅ', 'a\u0315\u0300\u05AEb', 'q\u0307\u0323', '\u1E9B\u0323', 'Corn', 'Com', '한국', '\u200Bx', '']
    for _ in range(400):
        some = seed.sample(blocks, 3)
        texts.append(''.join(chr(seed.choice(seed.choice(some))) for _ in range(seed.randint(1, 9))))
    print(json.dumps([[t, normal('NFD', t), normal('NFKD', t), skeleton(t)] for t in texts], indent=0))


if __name__ == '__main__':
    {'data': data, 'cases': cases}[sys.argv[1]]()
