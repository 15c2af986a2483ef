using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests;

/// <summary>Several decisions as one: all that was decided, or nothing and the first refusal.</summary>
public sealed class DecidedTests
{
    private static readonly Fact First = Make.Of(new DeviceMoved("van 1"), "2026-05-01", 1, "device:A1");
    private static readonly Fact Second = Make.Of(new DeviceNoted("hums"), "2026-05-01", 2, "device:A1");

    [Fact]
    public void All_of_them_in_their_order()
    {
        var together = Decided.Together(Of(First), null, Of(Second));

        Assert.Equal([First.Id, Second.Id], Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(together).Value.Select(f => f.Id));
    }

    [Fact]
    public void None_of_them_where_one_is_refused()
    {
        var together = Decided.Together(Of(First), new Rejection(RejectionSort.Invalid, "no"), new Rejection(RejectionSort.Invalid, "nor this"));

        Assert.Equal("no", Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(together).Why.Text);
    }

    private static Result<IReadOnlyList<Fact>> Of(Fact fact) => new Result<IReadOnlyList<Fact>>.Accepted([fact]);
}
