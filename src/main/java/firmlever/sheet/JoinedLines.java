package firmlever.sheet;

import java.awt.Paint;
import java.awt.Shape;
import java.awt.Stroke;
import java.awt.geom.AffineTransform;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.jspecify.annotations.Nullable;

/**
 * An SVG canvas that joins line pieces drawn end to end into one path. The chart library draws a
 * curve piece by piece, and a dash that starts anew with each piece is no dash.
 */
final class JoinedLines extends SVGGraphics2D {
  private Path2D.Double open = new Path2D.Double();
  private @Nullable Stroke openStroke;
  private @Nullable Paint openPaint;

  JoinedLines(SVGGeneratorContext context) {
    super(context, false);
  }

  @Override
  public void draw(Shape shape) {
    if (!(shape instanceof Line2D line)) {
      close();
      super.draw(shape);
      return;
    }
    Point2D end = open.getCurrentPoint();
    boolean goesOn =
        line.getP1().equals(end) && getStroke().equals(openStroke) && getPaint().equals(openPaint);
    if (!goesOn) {
      close();
      openStroke = getStroke();
      openPaint = getPaint();
      open.moveTo(line.getX1(), line.getY1());
    }
    open.lineTo(line.getX2(), line.getY2());
  }

  @Override
  public void fill(Shape shape) {
    close();
    super.fill(shape);
  }

  @Override
  public void setClip(Shape shape) {
    close();
    super.setClip(shape);
  }

  @Override
  public void transform(AffineTransform transform) {
    close();
    super.transform(transform);
  }

  @Override
  public void setTransform(AffineTransform transform) {
    close();
    super.setTransform(transform);
  }

  @Override
  public void translate(double right, double down) {
    close();
    super.translate(right, down);
  }

  /** Draws what is still open. */
  void close() {
    if (open.getCurrentPoint() == null) {
      return;
    }
    Path2D.Double whole = open;
    open = new Path2D.Double();
    Stroke stroke = getStroke();
    Paint paint = getPaint();
    setStroke(openStroke);
    setPaint(openPaint);
    super.draw(whole);
    setStroke(stroke);
    setPaint(paint);
  }
}
