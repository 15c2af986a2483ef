using System.Text;
using System.Text.Json;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Facts;

public sealed class CanonicalJsonTests
{
    // RFC 8785, appendix B: IEEE 754 bits and their text.
    [Theory]
    [InlineData(0x0000000000000000UL, "0")]
    [InlineData(0x8000000000000000UL, "0")]
    [InlineData(0x0000000000000001UL, "5e-324")]
    [InlineData(0x8000000000000001UL, "-5e-324")]
    [InlineData(0x7fefffffffffffffUL, "1.7976931348623157e+308")]
    [InlineData(0x4340000000000000UL, "9007199254740992")]
    [InlineData(0xc340000000000000UL, "-9007199254740992")]
    [InlineData(0x4430000000000000UL, "295147905179352830000")]
    [InlineData(0x44b52d02c7e14af5UL, "9.999999999999997e+22")]
    [InlineData(0x44b52d02c7e14af6UL, "1e+23")]
    [InlineData(0x444b1ae4d6e2ef4eUL, "999999999999999700000")]
    [InlineData(0x444b1ae4d6e2ef50UL, "1e+21")]
    [InlineData(0x3eb0c6f7a0b5ed8cUL, "9.999999999999997e-7")]
    [InlineData(0x3eb0c6f7a0b5ed8dUL, "0.000001")]
    [InlineData(0x41b3de4355555553UL, "333333333.3333332")]
    [InlineData(0xbecbf647612f3696UL, "-0.0000033333333333333333")]
    [InlineData(0x43143ff3c1cb0959UL, "1424953923781206.2")]
    public void Numbers_are_written_as_the_standard_prints_them(ulong bits, string expected) =>
        Assert.Equal(expected, CanonicalJson.Number(BitConverter.UInt64BitsToDouble(bits)));

    // RFC 8785, 3.2.2 and 3.2.3: sorted by UTF-16 units, shortest escapes, literals kept.
    [Fact]
    public void Keys_are_sorted_and_texts_escaped_as_little_as_can_be()
    {
        const string text = """{"\u20ac":"Euro Sign","\r":"Carriage Return","1":"One","\u0080":"Control","\ud83d\ude02":"Smiley","\u00f6":"o umlaut","</script>":[56.0,"\/\b\u000F\n"]}""";
        using var document = JsonDocument.Parse(text);

        var canonical = Encoding.UTF8.GetString(CanonicalJson.Write(document.RootElement));

        Assert.Equal("{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"</script>\":[56,\"/\\b\\u000f\\n\"],\"\u0080\":\"Control\",\"\u00f6\":\"o umlaut\",\"\u20ac\":\"Euro Sign\",\"\ud83d\ude02\":\"Smiley\"}", canonical);
    }

    [Fact]
    public void A_key_that_stands_twice_is_refused()
    {
        using var document = JsonDocument.Parse("""{"a":1,"a":2}""");

        Assert.Throws<FormatException>(() => CanonicalJson.Write(document.RootElement));
    }
}
