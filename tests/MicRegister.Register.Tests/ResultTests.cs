namespace MicRegister.Register.Tests;

public sealed class ResultTests
{
    [Fact]
    public void A_result_leads_on_by_what_it_is()
    {
        Assert.Equal("7", new Result<int>.Accepted(7).Match(v => $"{v}", why => why.Text));
        Result<int> refused = new Rejection(RejectionSort.NotFound, "no such thing");
        Assert.Equal("no such thing", refused.Match(v => $"{v}", why => why.Text));
    }
}
