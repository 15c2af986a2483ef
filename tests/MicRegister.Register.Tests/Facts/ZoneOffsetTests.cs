using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Facts;

public sealed class ZoneOffsetTests
{
    [Theory]
    [InlineData("2026-03-29T01:00:00.000Z", 60, null)]
    [InlineData("2026-03-29T01:00:00.000Z", 1080, null)]
    [InlineData("2026-03-29T01:00:00.000Z", -1081, "Offset '-1081' minutes")]
    [InlineData("tomorrow", 60, "Offset from 'tomorrow'")]
    [InlineData("2026-03-29", 60, "Offset from '2026-03-29'")]
    public void Offsets_are_instants_and_minutes_that_a_zone_can_have(string from, int minutes, string? says) =>
        Assert.Equal(says, ZoneOffsets.Wrong([new(from, minutes)])?[..(says?.Length ?? 0)]);

    [Fact]
    public void Each_offset_begins_after_the_one_before_it()
    {
        const string Spring = "2026-03-29T01:00:00.000Z", Autumn = "2026-10-25T01:00:00.000Z";

        Assert.Null(ZoneOffsets.Wrong([]));
        Assert.Null(ZoneOffsets.Wrong([new(Spring, 120), new(Autumn, 60)]));
        Assert.NotNull(ZoneOffsets.Wrong([new(Autumn, 60), new(Spring, 120)]));
        Assert.NotNull(ZoneOffsets.Wrong([new(Spring, 120), new(Spring, 60)]));
    }
}
